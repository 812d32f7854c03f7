import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import send from 'send';
import { parseJsonText } from '../../../core/interchange/index.ts';
import { insideFolder } from '../../files/index.ts';
import { refusal, route } from '../route.ts';

const ID = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** What an earlier `analyse` found out about a recording; 404 where there was none. */
export const analysis = route({
  method: 'GET',
  path: 'api/analysis/',
  async handle({ url }, room) {
    const id = url.searchParams.get('recording') ?? '';
    const path = join(room.content, '.liftside', 'analysis', id, 'analysis.json');
    const text = ID.test(id) ? await readFile(path, 'utf8').catch(() => undefined) : undefined;
    if (text === undefined)
      return refusal(404, 'the footage is not analysed yet', `run: npx liftside analyse ${ID.test(id) ? id : ''}`);
    const kept = parseJsonText(text, 'analysis');
    if (!kept.ok) return refusal(404, 'the saved analysis cannot be read', `run: npx liftside analyse ${id}`);
    return { json: kept.value };
  },
});

/** The waveform and the sheets of small pictures beside it. */
export const analysisFile = route({
  method: 'GET',
  path: 'api/analysis-file/',
  below: true,
  async handle({ rest, request, response }, room) {
    const [id = '', name = '', more] = rest.split('/');
    const known = ID.test(id) && /^(peaks\.s8|sheet-\d+-\d+\.jpg)$/.test(name) && more === undefined;
    if (!known) return refusal(403, 'that is no part of an analysis', 'load the page again');
    const folder = join(room.content, '.liftside', 'analysis', id);
    // Hidden folders are no content: the rule against links is asked from the folder itself on.
    const inside = insideFolder(folder, name);
    if (!inside.ok) return refusal(403, inside.problem, 'only the files of the analysis itself are given out');
    await new Promise<void>((done) => {
      response.on('close', done);
      send(request, `/${name}`, { root: folder, index: false, cacheControl: false })
        .on('error', () => {
          response.statusCode = 404;
          response.end();
        })
        .pipe(response);
    });
    return undefined;
  },
});
