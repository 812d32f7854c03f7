import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { auditDependencies, lockFile, packagesWithBinaries, reviewedFile } from './dependency-audit.ts';

// npm run dependencies: what is installed here, against what somebody has looked at; ends with 1 where something is new.

const HOME = resolve(import.meta.dirname, '../..');
const json = (name: string): unknown => JSON.parse(readFileSync(resolve(HOME, name), 'utf8'));
const lock = lockFile.parse(json('package-lock.json'));
const reviewed = reviewedFile.parse(json('reviewed-dependencies.json'));
const binaries = packagesWithBinaries(resolve(HOME, 'node_modules'));

const packages = Object.entries(lock.packages).filter(([path]) => path !== '');
const licences = new Map<string, number>();
for (const [, { license = 'not told by the lock file' }] of packages)
  licences.set(license, (licences.get(license) ?? 0) + 1);
const listed = (title: string, rows: readonly string[]) =>
  console.log(`${title}\n${rows.map((row) => `  ${row}\n`).join('')}`);

listed(
  `Licences of ${packages.length} packages`,
  [...licences].toSorted((a, b) => b[1] - a[1]).map(([licence, count]) => `${count} × ${licence}`),
);
listed(
  'Run a program when they are installed',
  packages
    .filter(([, { hasInstallScript }]) => hasInstallScript)
    .map(([path]) => path.split('node_modules/').at(-1) ?? ''),
);
listed('Hold programs for a machine, of those installed here', [...binaries].toSorted());

const findings = auditDependencies(lock, binaries, reviewed);
listed(
  findings.length === 0
    ? 'All of it was looked at; reviewed-dependencies.json says why it may stay.'
    : 'Not looked at yet',
  findings.map(({ what, help }) => `${what}\n    help  ${help} in reviewed-dependencies.json`),
);
process.exitCode = findings.length > 0 ? 1 : 0;
