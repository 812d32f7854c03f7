/** Folders of the content that texts stand in. */
export const TEXT_FOLDERS: readonly string[] = [
  'recordings',
  'lessons',
  'specs',
  'classes',
  'corrections',
  'questions',
];

/** Folders of the content that are somebody's own work: texts, and footage. */
export const CONTENT_FOLDERS: readonly string[] = [...TEXT_FOLDERS, 'media'];
