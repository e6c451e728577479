/** Why an archive, or a file of it, cannot be used. */
export type ArchiveProblem =
  /** Not a zip file at all. */
  | { readonly code: 'not-a-zip' }
  /** Begins as a zip file and has no end: half a download or copy. */
  | { readonly code: 'cut-off' }
  | { readonly code: 'zip-damaged'; readonly path: string | null; readonly detail: string }
  /** A sound zip file that some other program made. */
  | { readonly code: 'foreign' }
  | {
      readonly code: 'newer-version';
      readonly of: 'archive' | 'database';
      readonly met: number;
      readonly newest: number;
    }
  /** The list of contents says something that cannot be; `field` is a path such as `files[3].sha256`. */
  | { readonly code: 'bad-manifest'; readonly field: string; readonly met: string }
  | { readonly code: 'too-many-files'; readonly met: number; readonly most: number }
  | { readonly code: 'unsafe-path'; readonly path: string }
  | { readonly code: 'path-twice'; readonly path: string }
  | { readonly code: 'encrypted'; readonly path: string }
  | { readonly code: 'too-large'; readonly path: string; readonly bytes: number; readonly mostBytes: number }
  /** Packed so densely that it can only be meant to fill the device. */
  | { readonly code: 'too-dense'; readonly path: string; readonly ratio: number; readonly most: number }
  | { readonly code: 'file-missing'; readonly path: string }
  | { readonly code: 'file-unlisted'; readonly path: string }
  /** Its length or SHA-256 is not what the list of contents says. */
  | { readonly code: 'file-changed'; readonly path: string }
  /** A table that cannot be read as one. */
  | { readonly code: 'bad-table'; readonly path: string; readonly detail: string };
