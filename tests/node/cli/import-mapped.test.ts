import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readCaptions, timedWords } from '../../../src/core/read/index.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { isUnread } from '../../../src/core/words/index.ts';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

const MAPPING = 'entries: $.said[*]\nstart: $.at\nend: $.to\ntext: $.line\nunit: seconds\n';

function shop() {
  const content = shopFolder();
  const recording = readFileSync(join(content, 'recordings/chain.yaml'), 'utf8').replace(
    /^captions:.*$/m,
    'captions: media/said.vtt',
  );
  writeFileSync(join(content, 'recordings/chain.yaml'), recording);
  writeFileSync(join(content, 'map.yaml'), MAPPING);
  const lines = [
    { at: 12, to: 14, line: 'Crack the nut.' },
    { at: 30, to: 33, line: 'Then the wheel comes out.' },
  ];
  writeFileSync(join(content, 'words.json'), JSON.stringify({ said: lines }));
  const run = (...words: string[]) =>
    call(['import', 'words.json', '--into', 'chain', ...words], { content, cwd: content });
  const captions = () => readCaptions('c.vtt', readFileSync(join(content, 'media/said.vtt'), 'utf8')).captions;
  return { content, recording, run, captions };
}

test('a transcript comes in by a mapping as captions that nobody has read; again it leaves a person’s alone', async () => {
  const { content, run, captions } = shop();
  expect(await run('--mapping', 'map.yaml')).toMatchObject({ code: 0, said: expect.stringContaining('8 words') });
  expect(captions().map((caption) => [caption.text, isUnread(caption)])).toEqual([
    ['Crack the nut.', true],
    ['Then the wheel comes out.', true],
  ]);
  const [first] = captions();
  expect(timedWords(first!.markup, first!.at.start).map(({ at }) => toSeconds(at))).toEqual([12, 12.8, 13.333]);
  const path = join(content, 'media/said.vtt');
  writeFileSync(path, readFileSync(path, 'utf8').replace('Crack', 'Loosen'));
  expect((await run('--mapping', 'map.yaml')).said).toContain('1 caption of persons left as they are');
  expect(captions().map((caption) => [caption.text.split(' ')[0], isUnread(caption)])).toEqual([
    ['Loosen', false],
    ['Then', true],
  ]);
});

test('a wrong mapping or call is told, and nothing is written', async () => {
  const { content, recording, run } = shop();
  writeFileSync(join(content, 'map.yaml'), MAPPING.replace('$.said[*]', '$.said['));
  const { code, said } = await run('--mapping', 'map.yaml');
  expect([code, said]).toEqual([1, expect.stringMatching(/map\.yaml:1:10[\s\S]*no JSONPath/)]);
  writeFileSync(join(content, 'map.yaml'), MAPPING.replace('$.line', '$.words'));
  expect(await run('--mapping', 'map.yaml')).toMatchObject({
    code: 1,
    said: expect.stringMatching(
      /map\.yaml:4: text: \$\.words finds no words in any entry\nan entry holds "at", "to", "line"/,
    ),
  });
  expect(await run('--mapping', 'none.yaml')).toMatchObject({ code: 2, said: 'none.yaml cannot be read' });
  expect(await run('--mapping', 'map.yaml', '--as', 'words')).toMatchObject({ code: 2 });
  expect(readFileSync(join(content, 'recordings/chain.yaml'), 'utf8')).toBe(recording);
});
