import { globSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

/** What is drawn the same in every language: a play mark, and scales on which numbers grow to the right. */
const DRAWN: Readonly<Record<string, readonly string[]>> = {
  'src/styles/lesson.css': ['border-left: 1.1rem solid currentColor;', 'left: 50%;'],
  'src/styles/my-machine.css': [
    'left: 50%;',
    'border-left: 3px solid var(--ink);',
    'left: -2px;',
    'border-left: 4px solid var(--ink);',
  ],
};

// CSS Logical Properties and Values Level 1: start and end of a line, not left and right.
test('styles of the site name the start and end of a line, so that pages can be laid out from right to left', () => {
  const files = globSync('src/styles/*.css');
  expect(files.length).toBeGreaterThan(10);
  const physical = files.flatMap((file) =>
    readFileSync(file, 'utf8')
      .split('\n')
      .map((line) => line.trim())
      .filter((line) =>
        /^(?:(?:margin|padding|border)-(?:left|right)|left|right|float: (?:left|right)|text-align: (?:left|right))/.test(
          line,
        ),
      )
      .filter((line) => !DRAWN[file]?.includes(line))
      .map((line) => `${file}: ${line}`),
  );
  expect(physical).toEqual([]);
});
