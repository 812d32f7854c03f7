/** Files that cameras and recorders write, by their endings. */
export const FOOTAGE = /\.(mp4|m4v|mov|mkv|webm|mts|m2ts|avi|wav|mp3|m4a|aac|flac|ogg|opus)$/i;
/** Caption files, by their endings. */
export const CAPTIONS = /\.(vtt|srt)$/i;

/** True for what a recording is made of, by its name: films, sounds and captions. */
export function isFootage(name: string): boolean {
  return FOOTAGE.test(name) || CAPTIONS.test(name);
}
