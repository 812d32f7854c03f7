import type { Shop } from '../../../core/model/index.ts';
import { escapeMarkup as escaped, nearest } from '../../../core/read/index.ts';
import { recordingIds, recordingRows } from '../first-page.ts';
import type { Room } from '../room.ts';
import { route } from '../route.ts';

/** The page itself, for a recording; without one, the list of recordings. */
export default route({
  method: 'GET',
  path: '',
  below: true,
  open: true,
  async handle({ rest }, room) {
    const loaded = await room.load();
    const { shop, texts } = loaded;
    const found = /^([a-z0-9]+(?:-[a-z0-9]+)*)\/?$/.exec(rest);
    if (rest === '') {
      const body = `<main class="choose"><header><h1>Cutting room</h1>
<p><a href="${room.base}">${escaped(shop.info.name)}</a></p></header>
<section aria-labelledby="recordings-title"><h2 id="recordings-title">Recordings</h2>
${await recordingRows(room, loaded)}</section>
<div id="take-in"></div></main>
${deskData({ token: room.token, base: room.base, recordings: recordingIds(texts) })}
<script type="module" src="${room.base}src/browser/cutting-room/first-page.tsx"></script>`;
      return { html: frame(room.base, 'Cutting room', body) };
    }
    const id = found?.[1];
    if (id === undefined || !texts.has(`recordings/${id}.yaml`))
      return { status: 404, html: notThere(room, rest, shop) };
    const title = shop.recordings.find((r) => r.id === id)?.title ?? id;
    const body = `<div id="cutting-room"><p class="opening">Opening ${escaped(title)}.</p></div>
${deskData({ recording: id, token: room.token, base: room.base })}
<script type="module" src="${room.base}src/browser/cutting-room/main.tsx"></script>`;
    return { html: frame(room.base, `${title} · Cutting room`, body) };
  },
});

/** A wrong address: what is not there, and what is. */
function notThere({ base }: Room, rest: string, { recordings }: Shop): string {
  const asked = rest.replace(/\/+$/, '');
  const [close] = nearest(
    asked,
    recordings.map(({ id }) => id),
  );
  const near =
    close === undefined ? '' : ` The nearest is <a href="${base}cutting-room/${close}/">${escaped(close)}</a>.`;
  const body = `<main class="choose"><h1>There is no recording “${escaped(asked.slice(0, 100))}”</h1>
<p>Nothing is lost: the address does not name any.${near}</p>
<p><a href="${base}cutting-room/">All recordings</a></p></main>`;
  return frame(base, 'Not there · Cutting room', body);
}

/** What the page's script is handed. */
function deskData(data: object): string {
  return `<script type="application/json" id="desk">${JSON.stringify(data).replaceAll('<', '\\u003c')}</script>`;
}

function frame(base: string, title: string, body: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="${base}src/browser/cutting-room/page.css">
</head>
<body>
${body}
</body>
</html>
`;
}
