import { expect, test } from 'vitest';
import { z } from 'zod';
import { openSealed, seal } from '../../../src/node/queue/seal.ts';
import { TOKEN } from '../../support/queue.ts';

const shape = z.strictObject({ task: z.string(), first: z.number() });
const value = { task: 'encode-picture', first: 3 };
const sealed = seal(value, 'job-1', TOKEN);

test('what a holder of the token has sealed is read as it was', () => {
  expect(openSealed(sealed, shape, 'job-1', TOKEN)).toEqual(value);
});

test.each([
  ['another text', { ...sealed, text: sealed.text.replace('3', '4') }, 'job-1', TOKEN],
  ['the seal of another job', sealed, 'job-2', TOKEN],
  ['another token', sealed, 'job-1', `${TOKEN}!`],
  ['no seal', { text: sealed.text }, 'job-1', TOKEN],
  ['a seal that is too short', { ...sealed, seal: sealed.seal.slice(2) }, 'job-1', TOKEN],
  ['something else besides', { ...sealed, more: 1 }, 'job-1', TOKEN],
  ['nothing', undefined, 'job-1', TOKEN],
])('%s is refused by name', (_, raw, id, token) => {
  expect(() => openSealed(raw, shape, id, token)).toThrow("does not bear the shop's token");
});

test('what bears the token and is of another shape is refused too', () => {
  expect(() => openSealed(seal({ task: 1 }, 'job-1', TOKEN), shape, 'job-1', TOKEN)).toThrow('of a shape');
});
