import {
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, SOUND_SHOP } from '../../../src/core/check/index.ts';
import { checkFolder } from '../../../src/node/check/index.ts';
import { loadKept } from '../../../src/node/check/kept-file.ts';
import { copySum, type LoadedShop, loadShop, shopLoader, stampOfFile } from '../../../src/node/files/index.ts';
import { findSpeech } from '../../../src/node/media/kept-analysis.ts';
import {
  afterChange,
  SHOP_CHANGES,
  type ShopChange,
  type ShopState,
  START,
  sampleOf,
  shopChanges,
} from '../../support/shop-changes.ts';
import { shopFolder } from '../../support/shop-folder.ts';

// What is compared with is a check that keeps nothing: everything is read, and every rule walks over the whole shop.

const FILM = resolve(import.meta.dirname, '../../../content/media/front-brake.mp4');
const LONG = 300_000;
/** When files were last changed, as far as anybody can say who set it: a whole second, which every file system can keep. */
const OLD = 1_700_000_000;

async function fromNothing(content: string) {
  return found(content, await loadShop(content));
}

async function found(content: string, { shop, diagnostics }: LoadedShop) {
  return check(shop, diagnostics, { today: SAMPLE_TODAY, speech: await findSpeech(content, shop.recordings) });
}

/** What is known of the bytes of files differs by when they were looked at. */
const withoutStamps = (loaded: LoadedShop) => ({
  ...loaded,
  sums: new Map([...loaded.sums].map(([file, { sum }]) => [file, sum])),
});

/** The command line, the running program, and one that starts anew, against a reading and a check from nothing. */
async function allAgree(content: string, load: () => Promise<LoadedShop>, change: string) {
  const [nothing, loaded] = [await loadShop(content), await load()];
  expect(withoutStamps(loaded), change).toStrictEqual(withoutStamps(nothing));
  expect(withoutStamps(await shopLoader(content)()), change).toStrictEqual(withoutStamps(nothing));
  const wanted = await found(content, nothing);
  expect(await found(content, loaded), change).toEqual(wanted);
  expect(await kept(content), change).toEqual(wanted);
}

const kept = async (content: string) => (await checkFolder(content, SAMPLE_TODAY)).diagnostics;
const keptFile = (content: string) => join(content, '.liftside', 'check.kept');

function put(content: string, file: string, text: string) {
  mkdirSync(dirname(join(content, file)), { recursive: true });
  writeFileSync(join(content, file), text);
}

/** Writes what differs, and nothing else. */
function become(content: string, from: ShopState, to: ShopState) {
  for (const file of Object.keys(from.files)) if (!(file in to.files)) rmSync(join(content, file));
  for (const [file, text] of Object.entries(to.files)) if (from.files[file] !== text) put(content, file, text);
}

/** Changes of whole files, and of what lessons and recordings are read with and held against. */
function touchesMoreThanOne({ name, put }: ShopChange): boolean {
  return (
    name.includes('.') || Object.keys(put).some((file) => /^(kit|shop|specs|recordings|media|corrections)\b/.test(file))
  );
}

/** A folder with the two lessons and a film, checked when its files had been left alone long enough to go by their stamps. */
async function folderAtRest(): Promise<string> {
  const content = shopFolder(sampleOf(START));
  copyFileSync(FILM, join(content, 'media/brake.mp4'));
  for (const file of Object.keys(START.files)) utimesSync(join(content, file), OLD, OLD);
  await checkFolder(content, SAMPLE_TODAY);
  const stamps = async () => {
    const kept = loadKept(content, copySum());
    return kept.files.filter(([, { stamp }]) => stamp !== undefined).length;
  };
  while ((await stamps()) < Object.keys(START.files).length - 1) {
    await pause(200);
    await checkFolder(content, SAMPLE_TODAY);
  }
  return content;
}

test(
  'after each kind of change of each kind of file, and after taking it back, a check finds what one from nothing finds',
  async () => {
    const content = await folderAtRest();
    const load = shopLoader(content);
    let state = START;
    for (const change of SHOP_CHANGES.filter(touchesMoreThanOne)) {
      const next = afterChange(START, change);
      become(content, state, next);
      state = next;
      await allAgree(content, load, change.name);
    }
    become(content, state, START);
    await allAgree(content, load, 'as in the beginning');
  },
  LONG,
);

test(
  'changes in any order are found like a check from nothing',
  async () => {
    const content = await folderAtRest();
    const load = shopLoader(content);
    let state = START;
    await fc.assert(
      fc.asyncProperty(shopChanges(4), async (changes) => {
        for (const change of changes) {
          const next = afterChange(state, change);
          become(content, state, next);
          state = next;
          await allAgree(content, load, change.name);
        }
      }),
      { numRuns: 12, endOnFailure: true },
    );
  },
  LONG,
);

test(
  'a file of the same size and time, a film that goes, a picture and a lesson by another name are seen',
  async () => {
    const content = await folderAtRest();
    const lesson = join(content, 'lessons/chain.mdx');
    const text = readFileSync(lesson, 'utf8');
    writeFileSync(lesson, text.replace('axle-nut', 'axel-nut'));
    utimesSync(lesson, OLD, OLD);
    const misspelt = await kept(content);
    expect(misspelt.map(({ rule }) => rule)).toContain('spec-unknown');
    expect(misspelt).toEqual(await fromNothing(content));
    // Again within the same breath: its stamp is too young to be believed.
    writeFileSync(lesson, text);
    utimesSync(lesson, OLD, OLD);
    expect(await kept(content)).toEqual(await fromNothing(content));

    rmSync(join(content, 'media/brake.mp4'));
    expect((await kept(content)).map(({ rule }) => rule)).toContain('footage-missing');
    writeFileSync(lesson, `${text}\n![The nut](../media/nut.jpg)\n`);
    expect((await kept(content)).map(({ rule }) => rule)).toContain('picture-missing');
    put(content, 'media/nut.jpg', 'invented');
    expect((await kept(content)).map(({ rule }) => rule)).not.toContain('picture-missing');
    renameSync(lesson, join(content, 'lessons/chains.mdx'));
    expect(await kept(content)).toEqual(await fromNothing(content));
  },
  LONG,
);

test('what is kept and is damaged, cut short or forged is not believed, and is written anew', async () => {
  const content = shopFolder(sampleOf(START));
  put(content, 'lessons/chain.mdx', (SOUND_SHOP['lessons/chain.mdx'] ?? '').replace('axle-nut', 'axel-nut'));
  const sound = await kept(content);
  expect(sound).toEqual(await fromNothing(content));
  const good = readFileSync(keptFile(content), 'latin1');
  for (const bad of [
    good.replace('no spec', 'no sqec'),
    good.slice(0, good.length / 2),
    good.slice(good.indexOf('\n') + 1),
    `${'A'.repeat(43)}${good.slice(good.indexOf('\n'))}`,
    '',
    'null',
  ]) {
    expect(bad).not.toBe(good);
    writeFileSync(keptFile(content), bad, 'latin1');
    expect(await kept(content)).toEqual(sound);
    expect(readFileSync(keptFile(content), 'latin1')).toContain('no spec');
  }
});

test('what is kept apart and is damaged, forged or gone is not believed, and is made anew', async () => {
  const content = shopFolder(sampleOf(START));
  const folder = join(content, '.liftside', 'check.pieces');
  const lesson = SOUND_SHOP['lessons/chain.mdx'] ?? '';
  const [said, saidWrong] = ['Tighten it to 98 N·m.', 'Tighten it to 89 N·m.'];
  put(content, 'lessons/chain.mdx', `${lesson}\n${said}\n`);
  await kept(content);
  const pieces = () => readdirSync(folder).map((name) => readFileSync(join(folder, name), 'latin1'));
  const sound = pieces();
  expect(sound.join('')).toContain('98 N');
  const spoil = (into: (text: string) => string) => {
    for (const name of readdirSync(folder)) {
      const path = join(folder, name);
      writeFileSync(path, into(readFileSync(path, 'latin1')), 'latin1');
    }
  };
  for (const damage of [
    () => spoil((text) => text.replaceAll('98 N', '89 N')),
    () => spoil((text) => text.slice(0, text.length / 2)),
    () => spoil(() => ''),
    () => rmSync(folder, { recursive: true }),
  ]) {
    damage();
    // The text of another file alone: what was heard in the lesson before is wanted.
    for (const more of ['One more sentence.', saidWrong, '']) {
      put(content, 'lessons/chain.mdx', `${lesson}\n${said}\n\n${more}\n`);
      expect(await kept(content)).toEqual(await fromNothing(content));
    }
    expect(pieces().join('')).toContain('98 N');
  }
});

test('where nothing has changed nothing is written', async () => {
  const content = await folderAtRest();
  await kept(content);
  const folder = join(content, '.liftside', 'check.pieces');
  const all = () => [keptFile(content), ...readdirSync(folder).map((name) => join(folder, name))].map(stampOfFile);
  const before = all();
  await kept(content);
  expect(all()).toEqual(before);
});

test('what is no longer there is no longer kept', async () => {
  const content = shopFolder(sampleOf(START));
  await kept(content);
  expect(readFileSync(keptFile(content), 'latin1')).toContain('lessons/brake');
  for (const file of ['lessons/brake.mdx', 'lessons/brake.es.mdx', 'recordings/brake.yaml', 'media/brake.vtt'])
    rmSync(join(content, file));
  await kept(content);
  expect(readFileSync(keptFile(content), 'latin1')).not.toMatch(/(lessons|recordings|media)\/brake/);
});

test('where nothing can be kept the content is checked all the same', async () => {
  const content = shopFolder(sampleOf(START));
  writeFileSync(join(content, '.liftside'), '');
  expect(await kept(content)).toEqual(await fromNothing(content));
});

test('what is kept for reading the folder whole is never that of a recording as it was', async () => {
  const content = shopFolder(sampleOf(START));
  const lesson = (SOUND_SHOP['lessons/chain.mdx'] ?? '').replace('at="0:06:10"', 'at="00:07:30:00"');
  const recording = (start: string) =>
    (SOUND_SHOP['recordings/chain.yaml'] ?? '').replace('rate: "29.97"', `rate: "25"\nstart: "${start}"`);
  const whole = async () => (await checkFolder(content, SAMPLE_TODAY, true)).diagnostics;
  put(content, 'lessons/chain.mdx', lesson);
  put(content, 'recordings/chain.yaml', recording('00:00:00:00'));
  await whole();
  // The lesson alone is read, beside a recording that is kept.
  put(content, 'lessons/chain.mdx', `${lesson}\nOne more sentence.\n`);
  await whole();
  // By this clock the cue lies in what is cut; then the lesson is wanted whole, for the kit is another.
  put(content, 'recordings/chain.yaml', recording('00:02:00:00'));
  expect((await kept(content)).map(({ rule }) => rule)).toContain('cue-in-cut');
  put(content, 'kit.yaml', `${SOUND_SHOP['kit.yaml'] ?? ''}# counted again\n`);
  expect((await whole()).map(({ rule }) => rule)).toContain('cue-in-cut');
  expect(await whole()).toEqual(await fromNothing(content));
});
