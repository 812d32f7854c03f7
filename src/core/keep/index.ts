export {
  bytesOf,
  KEPT_PAGE,
  KEPT_SCRIPT,
  type KeepList,
  type KeptFile,
  type KeptWords,
  keepListPath,
  PIECE_BYTES,
  type Piece,
  piecesOf,
  readKeepList,
  sizeInWords,
} from './keep-list.ts';
export { keptWords } from './kept-words.ts';
export { partOfFile, rangeAsked } from './part-of-file.ts';
export { type Changed, whatChanged } from './what-changed.ts';
