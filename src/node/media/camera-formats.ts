import { ADTS, FilePathSource, FLAC, Input, MATROSKA, MP3, MP4, MPEG_TS, OGG, QTFF, WAVE, WEBM } from 'mediabunny';

/** Containers that are read without ffmpeg. The library's own list begins with playlists, which open other files. */
const CAMERA_FORMATS = [MP4, QTFF, MATROSKA, WEBM, WAVE, OGG, FLAC, MP3, ADTS, MPEG_TS];

/** A media file, opened without ffmpeg; to be disposed of. What it is, its bytes decide. */
export function openMedia(path: string): Input {
  return new Input({ source: new FilePathSource(path), formats: CAMERA_FORMATS });
}
