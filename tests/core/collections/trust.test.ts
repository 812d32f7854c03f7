import { expect, test } from 'vitest';
import { mayFollow } from '../../../src/core/collections/index.ts';

const [FIRST, SECOND] = ['0846 e836 d477 07cb cbe1 05fc 9025 9bf2', '1111 e836 d477 07cb cbe1 05fc 9025 9bf2'];

const fetched = (version: string, { name = 'tarn-values', sum = 'a', signer = FIRST } = {}) => ({
  ...{ sum, signer },
  manifest: {
    format: 'liftside-collection' as const,
    ...{ name, version, title: 'Values', publisher: 'Weir Bank Workshop', licence: 'CC-BY-4.0' },
    ...{ key: '', signature: '', files: [] },
  },
});
const lock = { version: '1.0.0', sum: 'a', signer: FIRST };
const said = (expected: Parameters<typeof mayFollow>[0], there: ReturnType<typeof fetched>) => {
  const answer = mayFollow(expected, there);
  return answer.ok ? answer.value : answer.problem;
};
const name = 'tarn-values';

test('the first version of a collection is taken, from a signer that is known or not', () => {
  expect(said({ name }, fetched('1.0.0'))).toBe('new');
  expect(said({ name, key: FIRST.replaceAll(' ', '-').toUpperCase() }, fetched('1.0.0'))).toBe('new');
});

test('what is in use is the same only where its bytes are', () => {
  expect(said({ name, lock }, fetched('1.0.0'))).toBe('same');
  expect(said({ name, lock }, fetched('1.0.0', { sum: 'b' }))).toBe(
    'tarn-values: 1.0.0 is not what was taken under that version',
  );
  expect(said({ name, lock }, fetched('1.0.1', { sum: 'b' }))).toBe('new');
  expect(said({ name, lock }, fetched('0.9.9', { sum: 'b' }))).toBe(
    'tarn-values: 0.9.9 is older than 1.0.0, which is in use',
  );
});

test('another name, another key than the one compared, and a signer that has changed are refused', () => {
  expect(said({ name, lock }, fetched('1.1.0', { name: 'other' }))).toBe(
    'tarn-values: what is there calls itself other',
  );
  expect(said({ name, key: SECOND }, fetched('1.0.0'))).toBe(
    `tarn-values: it is signed by ${FIRST}, and collections.yaml says ${SECOND}`,
  );
  expect(said({ name, lock }, fetched('1.1.0', { signer: SECOND }))).toBe(
    `tarn-values: the signer has changed: 1.0.0 was signed by ${FIRST}, 1.1.0 is by ${SECOND}`,
  );
  // The new key was compared by phone.
  expect(said({ name, lock, key: SECOND }, fetched('1.1.0', { signer: SECOND }))).toBe('new');
});
