import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import Ajv from 'ajv';
import { expect, test } from 'vitest';
import { replaceIn } from '../../../src/core/check/index.ts';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

// The folder holds no footage, so that every shop here has one error more than its sample.
const MISSING = 'there is no file media/chain.mp4';

test('an error is told with its line, a caret under it, why and help, and the exit code is 1', async () => {
  const content = shopFolder(replaceIn('lessons/chain.mdx', '"axle-nut"', '"axel-nut"'));
  const { code, out } = await call(['check'], { content });
  expect(code).toBe(1);
  expect(out).toContain(
    [
      `${basename(content)}/lessons/chain.mdx:17:75  error  spec-unknown`,
      '  17 │ <Uses tool="torque-wrench" /> <Uses part="cotter-pin" /> Tighten to <Spec of="axel-nut" />.',
      `     │ ${' '.repeat(74)}~~~~~~~~~~~~~`,
      '  no spec "axel-nut" for tarn-420',
      '  why   The page would show no value, and someone would guess one.',
      '  help  the nearest is "axle-nut"',
    ].join('\n'),
  );
  expect(out).toContain(MISSING);
  expect(out).toMatch(/2 errors$/);
});

test('all faults of all files are told in one run', async () => {
  const broken = {
    'shop.yaml': 'nmae: Millrace\n',
    'kit.yaml': 'tools: [unclosed\n',
    'recordings/chain.yaml': 'title: Chain\nfiles: []\nrate: "29.97"\n',
    'classes/saturday.yaml': 'title: 3\ndate: tomorrow\n',
  };
  const { out } = await call(['check', '--json'], { content: shopFolder({ files: broken }) });
  const { diagnostics, counts } = JSON.parse(out) as {
    diagnostics: { rule: string; file: string }[];
    counts: { error: number };
  };
  expect(new Set(diagnostics.map(({ file }) => file))).toEqual(
    new Set(['shop.yaml', 'kit.yaml', 'recordings/chain.yaml', 'classes/saturday.yaml']),
  );
  expect(diagnostics.filter(({ file }) => file === 'classes/saturday.yaml').length).toBeGreaterThanOrEqual(4);
  expect(counts.error).toBe(diagnostics.length);
});

test('--json holds what the contract says', async () => {
  const { out } = await call(['check', '--json'], { content: shopFolder() });
  expect(JSON.parse(out)).toMatchObject({
    diagnostics: [
      {
        rule: 'footage-missing',
        severity: 'error',
        file: 'recordings/chain.yaml',
        line: 3,
        column: 11,
        message: MISSING,
      },
    ],
    counts: { error: 1, warning: 0, info: 0 },
  });
});

// Shape of OASIS SARIF 2.1.0 (errata 01): the properties its schema requires, and its enumerations.
test('--sarif has the shape of SARIF 2.1.0', async () => {
  const { out } = await call(['check', '--sarif'], { content: shopFolder() });
  const schema = JSON.parse(readFileSync(join(import.meta.dirname, '../../reference/sarif-2.1.0-shape.json'), 'utf8'));
  const validate = new Ajv({ strict: false }).compile(schema);
  validate(JSON.parse(out));
  expect(validate.errors).toBeNull();
});

test('a folder that is not there is a wrong call, told in words', async () => {
  const { code, said } = await call(['check', '--content', '/nowhere/at/all']);
  expect(code).toBe(2);
  expect(said).toMatch(/no content folder at .*nowhere/);
});

test('an unknown command names the nearest one and ends with 2', async () => {
  const { code, said } = await call(['chekc']);
  expect(code).toBe(2);
  expect(said).toContain('check');
});
