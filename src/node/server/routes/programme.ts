import { basename } from 'node:path';
import send from 'send';
import { exportById, FORMATS } from '../../../core/interchange/index.ts';
import { programmeCards } from '../../../core/programme/index.ts';
import { insideFolder } from '../../files/index.ts';
import { cardsFingerprint, findRendered, readManifest, renderedFolder } from '../../media/rendered.ts';
import { refusal, route } from '../route.ts';

const ID = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** What is rendered of a recording, without cards and with them, and whether it still is what the content says. */
export const programme = route({
  method: 'GET',
  path: 'api/programme/',
  async handle({ url }, room) {
    const { shop } = await room.load();
    const recording = shop.recordings.find(({ id }) => id === url.searchParams.get('recording'));
    if (!recording) return { json: { made: [] } };
    const made = [];
    for (const burnt of [false, true]) {
      const manifest = await readManifest(renderedFolder(room.content, recording.id, burnt));
      const name = manifest?.files.programme?.name;
      if (!manifest || name === undefined) continue;
      const cards = burnt ? cardsFingerprint(programmeCards(shop, recording)) : undefined;
      const current = await findRendered(room.content, recording, cards);
      const captions = manifest.files.captions?.name;
      made.push({ burnt, name, captions, length: manifest.length, current: current !== undefined });
    }
    return { json: { made } };
  },
});

/** The files of a rendered programme, whole or by range (RFC 9110, section 14). */
export const programmeFile = route({
  method: 'GET',
  path: 'api/programme-file/',
  below: true,
  async handle({ rest, request, response }, room) {
    const [kind, id = '', name = '', more] = rest.split('/');
    const known = (kind === 'plain' || kind === 'burnt') && ID.test(id) && more === undefined;
    const folder = renderedFolder(room.content, id, kind === 'burnt');
    const manifest = known ? await readManifest(folder) : undefined;
    const listed = Object.values(manifest?.files ?? {}).some((file) => file.name === name);
    if (!listed || basename(name) !== name) return refusal(404, 'no programme holds that file', 'load the page again');
    // Hidden folders are no content: the rule against links is asked from the folder itself on.
    const inside = insideFolder(folder, name);
    if (!inside.ok) return refusal(403, inside.problem, 'only the files of the programme itself are given out');
    await new Promise<void>((done) => {
      response.on('close', done);
      send(request, `/${encodeURIComponent(name)}`, { root: folder, index: false, cacheControl: false })
        .on('error', () => {
          response.statusCode = 404;
          response.end();
        })
        .pipe(response);
    });
    return undefined;
  },
});

/** A recording or lesson in an open format, as text; without a format, those there are. */
export const exported = route({
  method: 'GET',
  path: 'api/export/',
  async handle({ url }, room) {
    const fitting = FORMATS.filter(({ of }) => of !== 'class');
    const wanted = url.searchParams.get('to');
    if (wanted === null) return { json: { formats: fitting.map(({ id, title, of }) => ({ id, title, of })) } };
    const format = fitting.find(({ id }) => id === wanted);
    if (!format) return refusal(400, `there is no format "${wanted}" here`, 'choose one of the list');
    const { shop } = await room.load();
    const id = url.searchParams.get(format.of) ?? '';
    const made = exportById(format, id, shop, room.now());
    if (!made.known) return refusal(404, made.words, 'liftside check says what cannot be read');
    if (!made.result.ok) return refusal(422, made.result.problem, made.result.help);
    const { text, notes } = made.result.value;
    return { json: { name: `${id}.${format.extension}`, text, notes } };
  },
});
