/** The page of what is handed out: each thing a section of its own, made when it is first chosen. */
import '../../view/paper/leaf.css';
import '../../view/paper/paper.css';
import '../../view/paper/print.css';
import '../../view/paper/handOut.css';
import { createJobSheet } from '../../view/paper/jobSheetSection.ts';
import '../../view/clip/clip.css';
import { createClipSection } from '../../view/clip/clipSection.ts';
import { createFileSection } from '../../view/clip/fileSection.ts';
import { createLinkSection } from '../../view/clip/linkSection.ts';
import { createPictureSection } from '../../view/clip/pictureSection.ts';
import { createSections } from '../../view/paper/sections.ts';
import { createSizeChoice } from '../../view/paper/sizeChoice.ts';
import { createSummary } from '../../view/paper/summarySection.ts';
import { download, fileName } from '../files.ts';
import type { CreatePage, Given, Page } from './page.ts';

interface Section {
  readonly title: string;
  /** Fills `host` when the section is first chosen. Its `shown` and `hidden` are called as for a page. */
  readonly create: (host: HTMLElement, given: Given) => Page;
}

/** The day on this machine, "2026-11-25". */
function today(): string {
  const now = new Date();
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

export const createPage: CreatePage = (host, given) => {
  const sizes = createSizeChoice(() => given.store.state);
  const save = (blob: Blob, end: string): void =>
    download(blob, `${fileName(given.store.state.doc.name, 'build')}-${end}`);
  const sections: readonly Section[] = [
    { title: 'Plain summary', create: (place, { store, pool }) => createSummary(place, store, pool, sizes, today) },
    { title: 'Job sheet', create: (place, { store, pool }) => createJobSheet(place, store, pool, sizes, today) },
    { title: 'Picture', create: (place, { store }) => createPictureSection(place, store, save) },
    { title: 'Clip', create: (place, { store }) => createClipSection(place, store, save) },
    { title: 'File', create: (place, { store }) => createFileSection(place, store, save) },
    { title: 'Link', create: (place, { store }) => createLinkSection(place, store) },
  ];
  return createSections(
    host,
    sections.map(({ title, create }) => ({ title, create: (place: HTMLElement) => create(place, given) })),
    given.close,
  );
};
