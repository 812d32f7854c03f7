/**
 * Containers that cameras and sound recorders write, by ffmpeg's names of their readers. Lists that name other files
 * (`hls`, `concat`, `dash`, `imf`, and image sequences) are not among them.
 */
const CAMERA_CONTAINERS = [
  ...['mov', 'matroska', 'avi', 'mpegts', 'mpegtsraw', 'mpeg', 'mxf', 'asf', 'flv', 'ogg', 'dv', 'ivf', 'nut', 'gxf'],
  ...['wav', 'w64', 'aiff', 'caf', 'flac', 'mp3', 'aac', 'ac3', 'eac3', 'amr', 'au', 'wv'],
  ...['h264', 'hevc', 'm4v', 'mpegvideo', 'mjpeg', 'obu', 'av1'],
];

/** Options that stand before an input: nothing but local files is opened, and no other container is read. */
function only(containers: readonly string[]): string[] {
  return ['-protocol_whitelist', 'file', '-format_whitelist', containers.join(',')];
}

/**
 * A camera file as an input of ffmpeg or ffprobe. What it is, its first bytes decide, and not its name: a playlist or
 * a list of files that is called `.mp4` could otherwise have any file of this machine opened, or an address on the
 * network, and what is in there would end up in the programme.
 */
export function cameraInput(path: string): string[] {
  return [...only(CAMERA_CONTAINERS), '-i', `file:${path}`];
}

/** A PNG picture that Liftside drew, as an input. */
export function drawingInput(path: string): string[] {
  return [...only(['png_pipe']), '-f', 'png_pipe', '-i', `file:${path}`];
}

/** Files that Liftside wrote itself, whose kind is therefore known. */
export type OwnFormat = 'aac' | 'webvtt' | 'ffmetadata';

/** One of them, as an input. */
export function ownInput(format: OwnFormat, path: string): string[] {
  return [...only([format]), '-f', format, '-i', `file:${path}`];
}

/** A list of MP4 files that Liftside wrote, as one input. */
export function joinedInput(list: string): string[] {
  return [...only(['concat', 'mov']), '-f', 'concat', '-safe', '0', '-auto_convert', '0', '-i', `file:${list}`];
}

/** A source that computes pictures or sound (libavfilter); it opens no file. */
export function computedInput(graph: string): string[] {
  return ['-f', 'lavfi', '-i', graph];
}
