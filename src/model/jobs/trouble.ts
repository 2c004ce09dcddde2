/** What can be the matter with the place where jobs are kept, told apart by what the user can do about it. */

export type Trouble =
  /** The browser keeps nothing for this page: private window, switched off, or no database at all. */
  | 'nothing is kept'
  /** No room left on the disk, or in what the browser allows. */
  | 'full'
  /** Another tab holds the library open in an earlier form. */
  | 'blocked'
  /** The library was written by a later version of the program. */
  | 'newer'
  /** The database is there and can't be read. */
  | 'unreadable'
  /** The database went away while the page was open. */
  | 'gone';

/** By the name of what the database threw (Indexed Database API 3.0, "Exceptions"; Web IDL, "DOMException names"). */
export function troubleOf(error: unknown): Trouble {
  const name = typeof error === 'object' && error !== null && 'name' in error ? String(error.name) : '';
  switch (name) {
    case 'QuotaExceededError':
      return 'full';
    case 'VersionError':
      return 'newer';
    case 'InvalidStateError':
    case 'AbortError':
      return 'gone';
    case 'UnknownError':
    case 'DataError':
    case 'NotFoundError':
    case 'NotReadableError':
    case 'DataCloneError':
      return 'unreadable';
    default:
      return 'nothing is kept';
  }
}
