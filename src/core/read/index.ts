export {
  captionWords,
  escapeCueText,
  fromSrtText,
  type TimedWords,
  timedWords,
  withoutBlankLines,
} from './caption-text.ts';
export { captionTime } from './caption-times.ts';
export { MOST_CAPTION_TEXT, type ReadCaptions, readCaptions } from './captions.ts';
export { FAULTS, type Fault, type FaultId } from './faults.ts';
export { didYouMean, nearest } from './nearest.ts';
export { plainText } from './plain-text.ts';
export { Points } from './points.ts';
export { CONTENT_FILES, filesNamed, readShop, type ShopRead } from './read-shop.ts';
export { slug } from './slug.ts';
export { counted, listed } from './words.ts';
