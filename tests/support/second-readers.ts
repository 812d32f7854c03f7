import { aptLine, canInstall, installWithApt, mayNotInstall, onPath } from '../../src/node/programs/index.ts';

interface TestProgram {
  readonly program: string;
  /** The Debian package that brings it. */
  readonly package: string;
  readonly what: string;
  readonly without: string;
}

/** Independent programs that read what is written. */
const READERS: readonly TestProgram[] = [
  {
    ...{ program: 'mkvmerge', package: 'mkvtoolnix', what: 'a second reader that tests compare with' },
    without: 'tests that have it read Matroska chapters are skipped',
  },
  {
    ...{ program: 'pdftotext', package: 'poppler-utils', what: 'a second reader that tests compare with' },
    without: 'tests that have it read printed papers are skipped',
  },
];

const QUEUE: TestProgram = {
  ...{ program: 'redis-server', package: 'redis-server', what: 'the queue of tests with several workers' },
  without: 'tests of work on several machines are skipped',
};

/** Chromium without the parts of a window that nobody sees: a page opens in half the time. */
export const WINDOWLESS = 'chromium-headless-shell';
const BROWSER: TestProgram = {
  ...{ program: WINDOWLESS, package: WINDOWLESS, what: 'Chromium without a window, for browser tests' },
  without: 'the browser tests run in Chromium itself, which takes longer',
};

/**
 * Installs programs that only tests use, where packages can be installed; says what follows where they cannot. Each
 * group by itself: a release of Debian that lacks one package still brings the others.
 */
export async function setUpReaders(
  env: Readonly<Record<string, string | undefined>>,
  say: (text: string) => void,
): Promise<void> {
  for (const group of [READERS, [BROWSER], [QUEUE]]) {
    const missing = async () => {
      const found = await Promise.all(group.map(({ program }) => onPath([program], env)));
      return group.filter((_, i) => found[i] === undefined);
    };
    const before = await missing();
    if (before.length === 0) continue;
    if (await canInstall(env)) {
      const packages = before.map((each) => each.package);
      const line = aptLine(packages);
      const what = [...new Set(before.map((each) => each.what))].join('; ');
      if (mayNotInstall(env)) say(`To have ${what}:\n  ${line}`);
      else {
        say(`Installing for the whole machine, as ${what}: ${line}`);
        await installWithApt(packages).catch((error: unknown) =>
          say(`apt-get failed: ${String(error).split('\n')[0]}`),
        );
      }
    }
    for (const { program, without } of await missing()) say(`${program}: not found; ${without}`);
  }
}
