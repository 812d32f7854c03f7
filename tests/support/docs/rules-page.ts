import { structuredPatch } from 'diff';
import {
  READ_FAULTS,
  type ReadFault,
  RULES,
  type Rule,
  type Sample,
  SOUND_SHOP,
} from '../../../src/core/check/index.ts';

type Told = Pick<Rule | ReadFault, 'id' | 'severity' | 'why' | 'bad' | 'says'>;

/** The page that lists every rule, made from the lines its tests run on. */
export function rulesPage(): string {
  const all: readonly Told[] = [...RULES, ...READ_FAULTS].toSorted((a, b) => (a.id < b.id ? -1 : 1));
  return [
    '# Rules',
    '',
    'What `liftside check` can tell, made by `npm run docs` from the rules themselves: why each matters, a change to a small',
    'sound shop that it tells, and what it then says. The tests run on the same lines.',
    '',
    ...all.map(({ id }) => `- [${id}](#${id})`),
    ...all.flatMap(section),
    '',
  ].join('\n');
}

function section({ id, severity, why, bad, says }: Told): string[] {
  return [
    '',
    `## ${id}`,
    '',
    `${severity}. ${why}`,
    '',
    '```diff',
    ...change(bad),
    '```',
    '',
    `> ${says.replace(/^[\d:]+ /, '')}`,
  ];
}

/** A sample as the change it makes to the sound shop, without what only keeps the rest sound. */
function change({ files, media, unreadable }: Sample): string[] {
  const lines = Object.entries(files).flatMap(([file, text]) => {
    // A class that leaves the lesson out only keeps the rest sound.
    if (file.startsWith('classes/') && Object.keys(files).length > 1) return [];
    const before = SOUND_SHOP[file] ?? '';
    const { hunks } = structuredPatch(file, file, before, text, '', '', { context: 1 });
    const body = hunks.flatMap((hunk) => hunk.lines.filter((line) => !line.startsWith('\\')));
    const own = /^---\n[\s\S]*?\n---\n([\s\S]*)$/.exec(text)?.[1];
    // A lesson that shares little with the sound one is shown whole, below its front matter.
    if (own !== undefined && body.filter((line) => line.startsWith('-')).length > 3)
      return [
        `  ${file}`,
        ...own
          .trimEnd()
          .split('\n')
          .map((line) => `+${line}`),
      ];
    return [`  ${file}`, ...body];
  });
  const missing = Object.entries(media ?? {}).map(
    ([file, seconds]) => `  ${file}: ${seconds === 'missing' ? 'not there' : `${seconds} s long`}`,
  );
  const closed = Object.entries(unreadable ?? {}).map(([file, reason]) => `  ${file}: ${reason}`);
  return [...lines, ...missing, ...closed];
}
