import { aptLine, canInstall, installWithApt, mayNotInstall, onPath } from '../../src/node/programs/index.ts';

/** Independent programs that read what is written, and the Debian packages that bring them. */
const READERS = [
  { program: 'mkvmerge', package: 'mkvtoolnix', reads: 'Matroska chapters' },
  { program: 'pdftotext', package: 'poppler-utils', reads: 'printed papers' },
];

/**
 * Installs the programs that some tests compare with, where packages can be installed; says which tests are skipped
 * where they cannot.
 */
export async function setUpReaders(
  env: Readonly<Record<string, string | undefined>>,
  say: (text: string) => void,
): Promise<void> {
  const missing = async () => {
    const found = await Promise.all(READERS.map(({ program }) => onPath([program], env)));
    return READERS.filter((_, i) => found[i] === undefined);
  };
  const before = await missing();
  if (before.length === 0) return;
  if (await canInstall(env)) {
    const packages = before.map((reader) => reader.package);
    const line = aptLine(packages);
    if (mayNotInstall(env)) say(`Tests compare with ${packages.join(' and ')}. To have them:\n  ${line}`);
    else {
      say(`Installing for the whole machine, as second readers that tests compare with: ${line}`);
      await installWithApt(packages).catch((error: unknown) => say(`apt-get failed: ${String(error).split('\n')[0]}`));
    }
  }
  for (const { program, reads } of await missing())
    say(`${program}: not found; tests that have it read ${reads} are skipped`);
}
