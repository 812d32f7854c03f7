/** How an address may begin: only what opens a page, a letter or a telephone. */
const LINKS = /^(https?|mailto|tel)$/;
/** Still pictures that every browser shows and that can hold no script. */
const PICTURES = /\.(avif|gif|jpe?g|png|webp)$/i;

/** As a browser takes it: white space at the ends and line breaks and tabs anywhere do not count (WHATWG URL, 4.4). */
function asRead(address: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what the standard leaves out
  return address.replace(/^[\u0000-\u0020]+|[\u0000-\u0020]+$|[\t\n\r]/g, '');
}

/** True for an address that a lesson may link to. */
export function safeLink(address: string): boolean {
  const scheme = /^([^/?#:]*):/.exec(asRead(address))?.[1];
  return scheme === undefined || LINKS.test(scheme.toLowerCase());
}

/** What is wrong with the address of a picture. */
export interface PictureRefused {
  readonly problem: string;
  readonly help: string;
}

/**
 * The file of a picture that a lesson names, relative to the content folder.
 *
 * @param address relative to the folder `lessons/`, as Markdown has it
 */
export function pictureFile(address: string): { readonly file: string } | PictureRefused {
  const read = decodePath(asRead(address));
  const inside = 'put the picture into the content folder and write its path, such as ../media/nut.jpg';
  // biome-ignore lint/suspicious/noControlCharactersInRegex: no name of a file holds it
  if (/^[^/?#]*:/.test(read) || /^[/\\]/.test(read) || /[\\\u0000]/.test(read))
    return { problem: `the picture ${read.slice(0, 40)} is not a file of this shop`, help: inside };
  const parts: string[] = ['lessons'];
  for (const part of read.split('/')) {
    if (part === '..') {
      if (parts.length === 0) return { problem: `the picture ${read} lies outside the content folder`, help: inside };
      parts.pop();
    } else if (part !== '.' && part !== '') parts.push(part);
  }
  const file = parts.join('/');
  if (!PICTURES.test(file))
    return {
      problem: `${read.slice(0, 40)} is no picture that every browser shows`,
      help: 'save it as .jpg, .png, .webp, .avif or .gif',
    };
  return { file };
}

function decodePath(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}
