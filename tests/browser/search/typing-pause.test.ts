import { describe, expect, it } from 'vitest';
import { pauseAfter } from '../../../src/browser/search/typing-pause.ts';

describe('the pause before a letter is searched for', () => {
  it('is there while one types seven letters a second or faster', () => {
    expect([0, 80, 149].map(pauseAfter)).toEqual([40, 40, 40]);
  });

  it('is none for the first letter, or one after a thought', () => {
    expect([150, 2000, Number.POSITIVE_INFINITY].map(pauseAfter)).toEqual([0, 0, 0]);
  });
});
