export {
  captionWords,
  escapeMarkup,
  fromSrtText,
  type TimedWords,
  timedWords,
  withoutBlankLines,
} from './caption-text.ts';
export { captionTime } from './caption-times.ts';
export { MOST_CAPTION_TEXT, readCaptions } from './captions.ts';
export { CONTENT_FILES } from './content-files.ts';
export { FAULTS, type Fault, type FaultId } from './faults.ts';
export { type FilesNamed, filesNamed, filesNamedIn, furtherLanguages } from './files-named.ts';
export { MOST_OF_LESSON } from './lesson-limits.ts';
export { didYouMean, nearest } from './nearest.ts';
export { frontMatter, parseMarkdown } from './parse-markdown.ts';
export { Points } from './points.ts';
export { keptFolder } from './read-collections.ts';
export { fileInLanguage, type RecordingYaml } from './read-recording.ts';
export { readShop, type Unreadable } from './read-shop.ts';
export { readYaml } from './read-yaml.ts';
export { type FileRead, KeptReads, type Questions, type Recalls, written } from './recall.ts';
export { slug } from './slug.ts';
export { firstLine, listWords, plural } from './words.ts';
export { parseYaml } from './yaml-document.ts';
