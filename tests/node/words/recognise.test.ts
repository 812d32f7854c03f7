import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readCaptions, timedWords } from '../../../src/core/read/index.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { isUnread } from '../../../src/core/words/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { analyseRecording } from '../../../src/node/media/analyse.ts';
import { findAnalysis } from '../../../src/node/media/kept-analysis.ts';
import { findListener } from '../../../src/node/media/listener.ts';
import type { Workplace } from '../../../src/node/media/pool.ts';
import { Progress, SILENT } from '../../../src/node/media/progress.ts';
import { Store } from '../../../src/node/media/store.ts';
import { findTools } from '../../../src/node/media/tools.ts';
import { findModel } from '../../../src/node/words/find-model.ts';
import { recogniseRecording } from '../../../src/node/words/recognise.ts';
import { call } from '../../support/call.ts';
import { RESTS, SOUNDS, type Sung, sing, wavOf, writeToneNetwork } from '../../support/tone-network.ts';

// Words drawn as tones at known times are the truth here; they are recognised by the native library with a network whose
// weights the test computes. What decodes and recognises are optional parts of a machine.
const [tools, library] = await Promise.all([findTools(process.env), findListener()]);
const RUNS = tools.ok && library.ok;

const root = mkdtempSync(join(tmpdir(), 'recognise-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** Words one after the other from a time on, 0.2 s between two. */
const row = (words: string, from: number) => {
  let at = from;
  return words.split(' ').map((word) => {
    const start = at;
    at += (word.length + 1) * (SOUNDS + RESTS) + 0.2;
    return [word, start] as const;
  });
};
const SAID = [...row('look at the nut', 1), ...row('set it to nineteen newton metres', 8)];
const LENGTH = 20;

/** A shop with one recording of words as tones, looked through by loudness: tones are no speech to the network for it. */
let sings: { content: string; sung: readonly Sung[] };
async function makeShop() {
  const content = join(root, 'shop');
  for (const folder of ['recordings', 'media']) mkdirSync(join(content, folder), { recursive: true });
  writeFileSync(join(content, 'shop.yaml'), 'name: Test garage\n');
  writeFileSync(join(content, 'recordings/take.yaml'), 'title: Take\nfiles: [{file: media/a.wav}]\nrate: "25"\n');
  const { samples, sung } = sing(SAID, LENGTH);
  writeFileSync(join(content, 'media/a.wav'), wavOf(samples));
  const { shop } = await loadShop(content);
  await analyseRecording(content, shop.recordings[0]!, { ...(await place(content)), listener: null });
  return { content, sung };
}

/** The same shop once more. */
async function shopThatSings(name: string) {
  const content = join(root, name);
  cpSync(sings.content, content, { recursive: true });
  const { shop } = await loadShop(content);
  return { content, recording: shop.recordings[0]!, sung: sings.sung, at: await place(content) };
}

async function place(content: string, signal = new AbortController().signal): Promise<Workplace> {
  if (!tools.ok) throw new Error(tools.problem);
  return { tools: tools.value, store: await Store.open(content), signal, progress: new Progress(SILENT) };
}

function captionsIn(content: string) {
  const { captions, diagnostics } = readCaptions('take.vtt', readFileSync(join(content, 'media/take.vtt'), 'utf8'));
  expect(diagnostics).toEqual([]);
  return captions;
}

/** Times are told by frames of 40 ms, each of which hears 12 ms around it. */
const NEAR = 0.06;

describe.skipIf(!RUNS)('speech recognised on this machine', () => {
  let model = '';
  beforeAll(async () => {
    model = await writeToneNetwork(join(root, 'model'));
    sings = await makeShop();
  });

  test('words come as captions at the times they were drawn at, unread, quantities in figures', async () => {
    const { content, sung } = await shopThatSings('words');
    const env = { ...process.env, LIFTSIDE_MODEL: model };
    const { code, said } = await call(['transcribe', 'take'], { content, env, cwd: root });
    expect([code, said]).toEqual([0, expect.stringContaining('10 words recognised')]);
    expect(readFileSync(join(content, 'recordings/take.yaml'), 'utf8')).toContain('captions: media/take.vtt');
    const captions = captionsIn(content);
    expect(captions.every(isUnread)).toBe(true);
    expect(captions.map(({ text }) => text.replaceAll(/\s+/g, ' ')).join(' | ')).toBe(
      'look at the nut | set it to 19 N·m',
    );
    const heard = captions.flatMap(({ markup, at }) =>
      timedWords(markup, at.start).map((word, i) => ({ first: i === 0, start: toSeconds(word.at) })),
    );
    const drawn = sung.filter(({ text }) => text !== 'newton' && text !== 'metres');
    expect(heard).toHaveLength(drawn.length);
    heard.forEach(({ first, start }, i) => {
      // A caption may come up a little before its first word.
      const late = start - drawn[i]!.start;
      expect([drawn[i]!.text, late > (first ? -0.36 : -NEAR) && late < NEAR]).toEqual([drawn[i]!.text, true]);
    });
  });

  test('what a person touched stays; the rest is recognised anew out of what is kept', async () => {
    const { content } = await shopThatSings('touched');
    const run = () => call(['transcribe', 'take', '--model', model], { content, env: process.env, cwd: root });
    await run();
    const path = join(content, 'media/take.vtt');
    writeFileSync(path, readFileSync(path, 'utf8').replace('look', 'Look well'));
    const kept = readdirSync(join(content, '.liftside/media')).filter((name) => name.startsWith('recognise-'));
    expect(kept).toHaveLength(1);
    const { code, said } = await run();
    expect([code, said]).toEqual([0, expect.stringContaining('1 caption of persons left as they are')]);
    expect(captionsIn(content).map((caption) => [caption.text.split(/\s/)[0], isUnread(caption)])).toEqual([
      ['Look', false],
      ['set', true],
    ]);
  });

  test('pieces, and what is kept: each word where it was drawn; another model or hot word is another result', async () => {
    const { content, recording, sung, at } = await shopThatSings('pieces');
    const analysis = (await findAnalysis(content, recording))!;
    const found = await findModel({ folder: model, by: '--model' }, 'en');
    if (!found.ok) throw new Error(found.problem);
    const params = { model: found.value, language: 'en', hotWords: [] };
    const words = (await recogniseRecording(content, recording, analysis, params, at)).flat();
    expect(words.map(({ text }) => text)).toEqual(sung.map(({ text }) => text));
    words.forEach(({ start, end }, i) => {
      const { start: from, end: until } = sung[i] as Sung;
      expect(Math.abs(start - from)).toBeLessThan(NEAR);
      // The last letter begins a letter before the end; a syllable is counted from there.
      expect(Math.abs(end - (until - SOUNDS - RESTS + 0.3))).toBeLessThan(NEAR);
    });
    const again = await place(content);
    await recogniseRecording(content, recording, analysis, params, again);
    const talk = sung.reduce((sum, { start, end }) => sum + end - start, 0);
    expect(again.progress.reused).toBeGreaterThan(talk);
    const other = await place(content);
    const changed = { ...params, model: { ...found.value, fingerprint: 'another' } };
    await recogniseRecording(content, recording, analysis, changed, other);
    expect(other.progress.reused).toBe(0);
  });

  test('a model that its library does not take, or that breaks down, ends its own process and is told', async () => {
    const { content } = await shopThatSings('broken');
    const run = (folder: string) =>
      call(['transcribe', 'take', '--model', folder], { content, env: process.env, cwd: root });
    const wrong = await run(await writeToneNetwork(join(root, 'no-blank'), { noBlank: true }));
    expect([wrong.code, wrong.said]).toEqual([3, expect.stringMatching(/does not take the model in .*: .*blk/)]);
    const breaks = await run(await writeToneNetwork(join(root, 'one-length'), { oneLength: true }));
    expect([breaks.code, breaks.said]).toEqual([3, expect.stringMatching(/broke down over the sound at 0:00:00/)]);
    expect(breaks.said).not.toMatch(/\bat .*\.mjs/);
    expect(readFileSync(join(content, 'recordings/take.yaml'), 'utf8')).not.toContain('captions');
  });

  test('stopped by its user it ends, and its recogniser with it', async () => {
    const { content, recording } = await shopThatSings('stopped');
    const analysis = (await findAnalysis(content, recording))!;
    const found = await findModel({ folder: model, by: '--model' }, 'en');
    if (!found.ok) throw new Error(found.problem);
    const stop = new AbortController();
    const running = await place(content, stop.signal);
    stop.abort(new Error('stopped by Ctrl-C'));
    const params = { model: found.value, language: 'en', hotWords: [] };
    await expect(recogniseRecording(content, recording, analysis, params, running)).rejects.toThrow('stopped');
  });
});

test('without a model it says what is needed and where it goes, and nothing is done', async () => {
  const content = join(root, 'none');
  mkdirSync(join(content, 'recordings'), { recursive: true });
  writeFileSync(join(content, 'shop.yaml'), 'name: Test garage\nspeechModel: models/english\n');
  writeFileSync(join(content, 'recordings/take.yaml'), 'title: Take\nfiles: [{file: media/a.wav}]\nrate: "25"\n');
  const run = (...words: string[]) => call(['transcribe', 'take', ...words], { content, env: {}, cwd: root });
  expect(await run()).toMatchObject({
    code: 3,
    said: expect.stringMatching(/speechModel in shop.yaml names .*none\/models\/english, which is no folder/),
  });
  writeFileSync(join(content, 'shop.yaml'), 'name: Test garage\n');
  const { code, said } = await run();
  expect(code).toBe(2);
  for (const part of ['--model DIR', 'LIFTSIDE_MODEL', 'speechModel', 'tokens.txt', 'joiner', 'Nothing is fetched'])
    expect(said).toContain(part);
  mkdirSync(join(root, 'empty'));
  expect((await run('--model', 'empty')).said).toContain('there is no tokens.txt');
  expect(await run('--model', 'empty', '--words', 'a.txt')).toMatchObject({ code: 2 });
  // But for what is kept of reading the folder.
  expect(readdirSync(content).toSorted()).toEqual(['.liftside', 'recordings', 'shop.yaml']);
  expect(readdirSync(join(content, '.liftside')).toSorted()).toEqual(['.gitignore', 'read']);
});
