import { copyFile, link, mkdir, rm } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { dirname, join } from 'node:path';
import send from 'send';
import type { Shop } from '../../core/model/index.ts';

/** Folder of the site that holds the camera files. */
export const FOOTAGE = 'footage';

/** Every camera file that a recording names and that can be played, by path relative to the content folder. */
export function footageOf({ recordings }: Shop): string[] {
  const files = recordings.flatMap((recording) => recording.files);
  return [...new Set(files.filter(({ facts }) => facts.state === 'media').map(({ file }) => file))];
}

/**
 * Puts the footage into a built site: by hard link where the disk allows, since hours of it are large; else by copy.
 *
 * @param content absolute path of the content folder
 * @param out absolute path of the built site
 */
export async function placeFootage(shop: Shop, content: string, out: string): Promise<void> {
  for (const file of footageOf(shop)) {
    const to = join(out, FOOTAGE, file);
    await mkdir(dirname(to), { recursive: true });
    await rm(to, { force: true });
    await link(join(content, file), to).catch(() => copyFile(join(content, file), to));
  }
}

/**
 * Answers requests for footage, whole or by range, from the content folder. Only files that a recording names
 * are given out.
 */
export function footageHandler(content: string, shop: () => Promise<Shop>) {
  return async (request: IncomingMessage, response: ServerResponse, next: () => void): Promise<void> => {
    const path = decoded(request.url ?? '');
    if (path === undefined || !footageOf(await shop()).includes(path)) return next();
    send(request, encodeURI(`/${path}`), { root: content, dotfiles: 'deny', index: false, cacheControl: false })
      .on('error', (error: { readonly status?: number }) => {
        if (error.status === 416) response.writeHead(416).end();
        else next();
      })
      .pipe(response);
  };
}

function decoded(url: string): string | undefined {
  try {
    return decodeURIComponent(new URL(url, 'http://local').pathname).replace(/^\//, '');
  } catch {
    return undefined;
  }
}
