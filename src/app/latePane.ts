/** A pane that is made when it is first asked for, and made anew with each build that is opened: a page that only turns the section does without it. */
export interface LatePane {
  readonly need: () => void;
  /** Drafts and folded groups belong to the build they were made in. */
  readonly renew: () => void;
}

export function latePane(make: () => { destroy(): void }): LatePane {
  let made: { destroy(): void } | null = null;
  return {
    need: () => {
      made ??= make();
    },
    renew: () => {
      if (made === null) return;
      made.destroy();
      made = make();
    },
  };
}
