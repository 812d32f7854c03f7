import jsqr from 'jsqr';

/** Longest sides a picture is looked at with, pixels: a code that fills it is found small, one in a corner large. */
const SIZES = [1000, 2000, 500];

/**
 * Reads the QR code in a picture: a screenshot, or a photograph of another screen.
 *
 * @returns its text; nothing where none is found
 */
export async function codeInPicture(file: Blob): Promise<string | undefined> {
  const bitmap = await createImageBitmap(file).catch(() => undefined);
  if (!bitmap) return undefined;
  try {
    for (const size of SIZES) {
      const scale = Math.min(1, size / Math.max(bitmap.width, bitmap.height));
      const canvas = document.createElement('canvas');
      canvas.width = Math.max(1, Math.round(bitmap.width * scale));
      canvas.height = Math.max(1, Math.round(bitmap.height * scale));
      const context = canvas.getContext('2d', { willReadFrequently: true });
      if (!context) return undefined;
      context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
      const { data, width, height } = context.getImageData(0, 0, canvas.width, canvas.height);
      const found = jsqr(data, width, height);
      if (found && found.data !== '') return found.data;
    }
    return undefined;
  } finally {
    bitmap.close();
  }
}
