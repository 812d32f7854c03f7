import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { lessonPage } from '../../../src/core/pages/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { sharedOnce, twoShops } from './two-shops.ts';

const LESSON = 'lessons/chain.mdx';
const CRACK = 'Crack it on the wheels.';

/** A shop that takes a lesson with its recording, captions and picture from another one. */
async function sharedLesson() {
  const shops = twoShops();
  const { cwd, write, change } = shops;
  change('gives/collections.yaml', '[specs/tarn-420.yaml]', `[specs/tarn-420.yaml, kit.yaml, ${LESSON}]`);
  write('gives/media/nut.jpg', Buffer.from([0xff, 0xd8, 1]));
  change(`gives/${LESSON}`, CRACK, `${CRACK} ![The nut](../media/nut.jpg)`);
  for (const file of [LESSON, 'recordings/chain.yaml', 'media/chain.vtt', 'kit.yaml', 'classes/saturday.yaml'])
    rmSync(join(cwd, 'takes', file));
  return shops;
}

test('a lesson comes with its recording, captions and pictures, all else stays', async () => {
  const shops = await sharedLesson();
  await sharedOnce(shops);
  for (const file of [LESSON, 'recordings/chain.yaml', 'media/chain.vtt', 'media/nut.jpg', 'kit.yaml'])
    expect([file, shops.read(`takes/${file}`)]).toEqual([file, shops.read(`gives/${file}`)]);
  expect(shops.read('shelf/collection.yaml').match(/path: \S+/g)).toHaveLength(6);

  const warning = '\n\n<Warning>Somebody holds the bike.</Warning>';
  shops.change(`takes/${LESSON}`, 'Tighten to', `${warning}\n\nTighten to`);
  shops.change(`gives/${LESSON}`, 'title: Chain', 'title: Chain and sprockets');
  shops.write('gives/media/nut.jpg', Buffer.from([0xff, 0xd8, 2]));
  await shops.publish('1.1.0');
  expect((await shops.update()).code).toBe(0);
  const text = shops.read(`takes/${LESSON}`);
  expect([text.includes(warning), text.includes('Chain and sprockets')]).toEqual([true, true]);
  expect(shops.read('takes/media/nut.jpg')).toBe(shops.read('gives/media/nut.jpg'));

  const { shop } = await loadShop(join(shops.cwd, 'takes'));
  const [lesson] = shop.lessons;
  expect(lesson && lessonPage(shop, lesson, 'none', (path) => path).shared).toBe(
    'Weir Bank Workshop, tarn-values 1.1.0, CC-BY-4.0, changed here',
  );
});

test('a picture that both have changed is a choice, and is taken or kept whole', async () => {
  const shops = await sharedLesson();
  await sharedOnce(shops);
  shops.write('takes/media/nut.jpg', 'ours');
  shops.write('gives/media/nut.jpg', 'theirs');
  await shops.publish('1.1.0');
  const { code, out } = await shops.update();
  expect([code, out]).toEqual([1, expect.stringContaining('media/nut.jpg: both sides have changed it')]);
  expect(shops.read('takes/media/nut.jpg')).toBe('ours');
  expect((await shops.update('--take', 'media/nut.jpg')).code).toBe(0);
  expect(shops.read('takes/media/nut.jpg')).toBe('theirs');
});
