/** What a page in the place of the section is, and what it is given. */
import type { Store } from '../../model/index.ts';
import type { Keeper } from '../../model/jobs/kept.ts';
import type { Pool } from '../../model/pieces/kind.ts';
import type { Work } from '../../model/pieces/table.ts';

export interface Given {
  readonly store: Store;
  /** Workers for what takes longer than a frame. */
  readonly pool: Pool<Work>;
  /** What keeps the build on show, and the library of jobs. */
  readonly keeper: Keeper;
  /** Back to the section. */
  readonly close: () => void;
  /** Brings another page up, by its name in the table. */
  readonly open: (name: string) => void;
}

export interface Page {
  /** Each time it comes up. */
  readonly shown?: () => void;
  /** Each time it goes: timers, frames and work that is under way stop here. */
  readonly hidden?: () => void;
  /** Escape: true when a step back inside the page was taken. */
  readonly back?: () => boolean;
}

/** Fills `host`, an empty element with the id `page-<name>`, when the page is first asked for. */
export type CreatePage = (host: HTMLElement, given: Given) => Page;

/** A page is fetched when it is first asked for, so that the start does without it. */
export interface PageEntry {
  /** Mark on the page (`data-view`), end of the element's id. */
  readonly name: string;
  /** In the bar, and the element's name for assistive technology. */
  readonly label: string;
  readonly load: () => Promise<{ readonly createPage: CreatePage }>;
}
