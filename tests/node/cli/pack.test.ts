import { expect, test } from 'vitest';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

test('what is not there is a wrong call, and the nearest is named', async () => {
  expect(await call(['pack', 'chian', '--without-pdf'], { content: shopFolder() })).toMatchObject({
    code: 2,
    said: expect.stringMatching(/no lesson or class "chian".*chain/s),
  });
});
