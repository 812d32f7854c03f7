import type { IncomingMessage, ServerResponse } from 'node:http';
import { ENGLISH, wording } from '../../core/locale/index.ts';
import { escapeMarkup as escaped } from '../../core/read/index.ts';
import { readTarget, safely } from '../http/index.ts';
import { messagesElement, readShopLocale } from '../site/locales.ts';
import { localPolicy } from '../site/page-policy.ts';
import { refusalFor, SAFE_HEADERS } from './guard.ts';
import type { Room } from './room.ts';

/** `/classes/<id>/present/` for who leads the class, `/classes/<id>/present/room/` for who sits in it. */
const PRESENT = /^classes\/([a-z0-9]+(?:-[a-z0-9]+)*)\/present\/(room\/)?$/;

/** The two windows of a class day: on the local site only, since they write down what happens. */
export function presentPages(room: Room) {
  return safely(async (request: IncomingMessage, response: ServerResponse, next: () => void): Promise<void> => {
    const target = readTarget(request.url);
    const found = target?.path.startsWith(room.base) ? PRESENT.exec(target.path.slice(room.base.length)) : undefined;
    const { method = 'GET', headers } = request;
    if (!found || method !== 'GET') return next();
    const port = request.socket.localPort ?? 0;
    const refused = refusalFor({ method, headers, port, token: undefined }, undefined);
    const id = found[1] ?? '';
    const { shop } = refused ? {} : await room.load();
    const title = shop?.classes.find((each) => each.id === id)?.title;
    response.setHeaders(SAFE_HEADERS);
    // The solver is a program for the web, which the pages of the local site may run.
    response.setHeader('content-security-policy', localPolicy(headers.host ?? ''));
    response.setHeader('content-type', refused ? 'text/plain; charset=utf-8' : 'text/html; charset=utf-8');
    if (refused || !shop || title === undefined) {
      response.statusCode = refused?.status ?? 404;
      response.end(
        refused
          ? `${refused.problem}\n`
          : frame(room.base, 'No such class', `<p>There is no class "${escaped(id)}".</p>`),
      );
      return;
    }
    const inRoom = found[2] !== undefined;
    const desk = JSON.stringify({ class: id, token: inRoom ? '' : room.token, base: room.base }).replaceAll(
      '<',
      '\\u003c',
    );
    const locale = await readShopLocale(shop);
    const { t } = wording(inRoom ? locale : ENGLISH);
    const opening = escaped(t('Opening {title}.', { title }));
    const body = `<div id="day" class="${inRoom ? 'room' : 'lead'}"><p class="opening">${opening}</p></div>
${messagesElement(locale.forDay)}<script type="application/json" id="desk">${desk}</script>
<script type="module" src="${room.base}src/browser/present/${inRoom ? 'open-room' : 'open-lead'}.tsx"></script>`;
    // The window of the one who leads speaks English but for what it shows the room.
    response.end(
      inRoom
        ? frame(room.base, `${title} · ${t('Room')}`, body, locale.tag)
        : frame(room.base, `${title} · Class day`, body),
    );
  });
}

function frame(base: string, title: string, body: string, language = 'en'): string {
  return `<!doctype html>
<html lang="${escaped(language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="${base}src/browser/present/present.css">
</head>
<body>
${body}
</body>
</html>
`;
}
