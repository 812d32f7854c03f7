import { expect, test } from 'vitest';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

const broken = () => {
  throw new RangeError('the clock has stopped');
};

test('a mistake in the program is told in words, not as a stack trace, and is no error of the content', async () => {
  const content = shopFolder();
  const { code, out, said } = await call(['check'], { content, now: broken });
  expect(code).toBe(3);
  expect(out).toBe('');
  expect(said).toContain('a fault in Liftside, not in your content: the clock has stopped');
  expect(said).not.toMatch(/\n\s+at /);
  expect(said).toContain(`send the file you changed last, or all of ${content}`);
});

test('whoever mends it can see where it happened', async () => {
  const traced = call(['check'], { content: shopFolder(), now: broken, env: { LIFTSIDE_TRACE: '1' } });
  await expect(traced).rejects.toThrow('the clock has stopped');
});
