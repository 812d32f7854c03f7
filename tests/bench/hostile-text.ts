/**
 * What texts made to be slow cost each reader and the finder of quantities, in seconds of a processor (not of a clock, so
 * that a busy machine counts the same), beside splitting the same text into words in the same run:
 *
 *     npx node tests/bench/hostile-text.ts [bytes, 1000000 when left out] [finder | readers]
 *
 * What imports take, and each kind of content file by itself, stands in `hostile-readers.ts`.
 * Ends with 1 when one takes more than two seconds a megabyte or throws.
 */
import { sampleContent } from '../../src/core/check/index.ts';
import { findQuantitiesByLine, unsearchedByLine } from '../../src/core/heard/index.ts';
import { readShop } from '../../src/core/read/index.ts';
import { HOSTILE_TEXT, type HostilePattern, type HostileTo } from '../support/hostile-text.ts';

const bytes = Number(process.argv[2] ?? 1_000_000);
const only = process.argv[3];
const MOST_SECONDS = 2 * Math.max(1, bytes / 1e6);

function processorSeconds(run: () => void): number {
  const from = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1e6;
}

/** The file of the sound small shop that a pattern takes the place of. */
const FILE: Readonly<Partial<Record<HostileTo, string>>> = {
  quantities: 'lessons/chain.mdx',
  mdx: 'lessons/chain.mdx',
  yaml: 'recordings/chain.yaml',
  captions: 'media/chain.vtt',
};

interface Reader {
  readonly name: string;
  readonly reads: (pattern: HostilePattern) => boolean;
  readonly run: (text: string, pattern: HostilePattern) => string;
}

const READERS: readonly Reader[] = [
  {
    name: 'finder',
    reads: () => true,
    run: (text) => {
      const found = findQuantitiesByLine(text).length;
      return `${found} found${unsearchedByLine(text).length > 0 ? ', rest told as not searched' : ''}`;
    },
  },
  {
    name: 'readers',
    reads: ({ aimedAt }) => FILE[aimedAt] !== undefined,
    run: (text, { aimedAt }) => {
      const { texts, facts } = sampleContent({ files: { [FILE[aimedAt] ?? '']: text } });
      return `${readShop(texts, facts).diagnostics.length} findings`;
    },
  },
];

let slow = 0;
for (const reader of READERS.filter(({ name }) => only === undefined || only === name))
  for (const pattern of HOSTILE_TEXT.filter(reader.reads)) {
    const text = pattern.text(bytes);
    const words = processorSeconds(() => void text.split(/\s+/));
    let outcome = '';
    const seconds = processorSeconds(() => {
      try {
        outcome = reader.run(text, pattern);
      } catch (error) {
        outcome = `THREW ${String(error)}`;
      }
    });
    const failed = seconds > MOST_SECONDS || outcome.startsWith('THREW');
    if (failed) slow++;
    console.log(
      `${failed ? 'SLOW ' : '     '}${reader.name.padEnd(8)}${pattern.name.padEnd(44)}${seconds.toFixed(2).padStart(7)} s ${(seconds / Math.max(words, 1e-4)).toFixed(0).padStart(5)}× splitting  ${outcome}`,
    );
  }
console.log(`${HOSTILE_TEXT.length} texts of ${bytes} bytes; ${slow} slower than ${MOST_SECONDS} s or thrown at`);
process.exitCode = slow > 0 ? 1 : 0;
