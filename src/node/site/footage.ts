import type { IncomingMessage, ServerResponse } from 'node:http';
import { basename, dirname, join } from 'node:path';
import send from 'send';
import { readTarget, safely } from '../http/index.ts';
import { renderedPath, seekPath } from './footage-paths.ts';
import type { Site } from './open-site.ts';

/**
 * What the pages play: the rendered programme of a recording where there is one, else, where the site plays uncut
 * footage, every camera file that it names and that can be played; the openings of films;
 * and the pictures of and in the lessons. By path below `FOOTAGE`, with the absolute path of the file.
 */
export function footageOf({ content, shop, rendered, unrendered, stills, openings }: Site): Map<string, string> {
  const pictures = shop.lessons.flatMap((lesson) =>
    lesson.pictures
      .filter(({ facts }) => facts.state === 'picture')
      .map(({ file }) => [file, join(content, file)] as const),
  );
  return new Map([
    ...pictures,
    ...stills,
    ...[...openings.values()].flat().map(({ path, file }) => [path, file] as const),
    ...shop.recordings.flatMap(({ id, files }): (readonly [string, string])[] => {
      const programme = rendered.get(id);
      if (programme)
        return [
          ...programme.parts.map(({ file }, part, { length: of }) => [renderedPath(id, part, of), file] as const),
          ...(programme.seek === undefined ? [] : [[seekPath(id), programme.seek.file] as const]),
        ];
      if (unrendered === 'none') return [];
      return files
        .filter(({ facts }) => facts.state === 'media')
        .map(({ file }) => [file, join(content, file)] as const);
    }),
  ]);
}

/**
 * Answers requests for footage, whole or by range. Only rendered programmes and files that a recording names are
 * given out.
 */
export function footageHandler(site: () => Promise<Site>) {
  return safely(async (request: IncomingMessage, response: ServerResponse, next: () => void): Promise<void> => {
    const path = readTarget(request.url)?.path.slice(1);
    const file = path === undefined ? undefined : footageOf(await site()).get(path);
    if (file === undefined) return next();
    send(request, `/${encodeURIComponent(basename(file))}`, {
      root: dirname(file),
      dotfiles: 'allow',
      index: false,
      cacheControl: false,
    })
      .on('error', (error: { readonly status?: number }) => {
        if (error.status === 416) response.writeHead(416).end();
        else next();
      })
      .pipe(response);
  });
}
