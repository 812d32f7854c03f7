import { escapeMarkup as escaped } from '../../../core/read/index.ts';
import { refusal, route } from '../route.ts';

/** The page itself, for a recording; without one, the list of recordings. */
export default route({
  method: 'GET',
  path: '',
  below: true,
  open: true,
  async handle({ rest }, room) {
    const { shop, texts } = await room.load();
    const found = /^([a-z0-9]+(?:-[a-z0-9]+)*)\/?$/.exec(rest);
    if (rest === '') {
      const rows = shop.recordings.map(
        ({ id, title }) => `<li><a href="${room.base}cutting-room/${id}/">${escaped(title)}</a></li>`,
      );
      return {
        html: frame(
          room.base,
          'Cutting room',
          `<main class="choose"><h1>Cutting room</h1><ul>${rows.join('')}</ul></main>`,
        ),
      };
    }
    const id = found?.[1];
    if (id === undefined || !texts.has(`recordings/${id}.yaml`))
      return refusal(
        404,
        `there is no recording "${rest}"`,
        `there are: ${shop.recordings.map((r) => r.id).join(', ') || 'none yet'}`,
      );
    const desk = JSON.stringify({ recording: id, token: room.token, base: room.base }).replaceAll('<', '\\u003c');
    const title = shop.recordings.find((r) => r.id === id)?.title ?? id;
    const body = `<div id="cutting-room"><p class="opening">Opening ${escaped(title)}.</p></div>
<script type="application/json" id="desk">${desk}</script>
<script type="module" src="${room.base}src/browser/cutting-room/main.tsx"></script>`;
    return { html: frame(room.base, `${title} · Cutting room`, body) };
  },
});

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
