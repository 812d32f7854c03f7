import { closeSync, type Dirent, openSync, readdirSync, readSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { z } from 'zod';

/** What the lock file says of a package. */
const locked = z.looseObject({
  license: z.string().optional(),
  hasInstallScript: z.boolean().optional(),
  cpu: z.array(z.string()).optional(),
  optional: z.boolean().optional(),
  os: z.array(z.string()).optional(),
});
export const lockFile = z.looseObject({ packages: z.record(z.string(), locked) });
export type LockFile = z.infer<typeof lockFile>;

const reasons = z.record(z.string(), z.string().min(15));
/** What was looked at, each with the reason it may stay. Names may end in `*`. */
export const reviewedFile = z.strictObject({
  licences: reasons.describe('SPDX expressions that may be used'),
  packages: reasons.describe('packages whose licence the lock file does not tell, or which is taken for them alone'),
  installScripts: reasons.describe('packages that run a program of their own when they are installed'),
  native: reasons.describe('packages that hold programs for a machine, not text that can be read'),
});
export type Reviewed = z.infer<typeof reviewedFile>;

/** A package that nobody has looked at, or a review of something that is there no more. */
export interface AuditFinding {
  readonly what: string;
  readonly help: string;
}

/**
 * Compares what is installed with what was looked at.
 *
 * @param binaries names of installed packages that hold programs for a machine, as far as they are installed here
 */
export function auditDependencies(lock: LockFile, binaries: ReadonlySet<string>, reviewed: Reviewed): AuditFinding[] {
  const findings: AuditFinding[] = [];
  const used = new Set<string>();
  const listed = (room: keyof Reviewed, name: string): boolean => {
    const found = Object.keys(reviewed[room]).filter((each) =>
      each.endsWith('*') ? name.startsWith(each.slice(0, -1)) : each === name,
    );
    for (const each of found) used.add(`${room} ${each}`);
    return found.length > 0;
  };
  const wanted = (room: keyof Reviewed, what: string) =>
    findings.push({ what, help: `look at it, then list it under "${room}" with the reason` });
  for (const [path, { license, hasInstallScript, cpu, os, optional }] of Object.entries(lock.packages)) {
    const name = path.split('node_modules/').at(-1) ?? '';
    if (name === '') continue;
    const alone = listed('packages', name);
    const known = license !== undefined && listed('licences', license);
    if (!alone && !known)
      wanted(
        license === undefined ? 'packages' : 'licences',
        `${name} has ${license ? `the licence ${license}` : 'no licence in the lock file'}`,
      );
    if (hasInstallScript && !listed('installScripts', name))
      wanted('installScripts', `${name} runs a program when it is installed`);
    const forMachine = cpu !== undefined || (os !== undefined && optional === true) || binaries.has(name);
    if (forMachine && !listed('native', name)) wanted('native', `${name} holds programs for a machine`);
  }
  for (const room of ['licences', 'packages', 'installScripts', 'native'] as const)
    for (const name of Object.keys(reviewed[room]))
      if (!used.has(`${room} ${name}`))
        findings.push({
          what: `${name} is listed under "${room}", but nothing has it`,
          help: 'take it out of the list',
        });
  return findings;
}

const BINARY_NAME = /\.(node|so(\.[\d.]+)?|dylib|dll|exe)$/;
/** First bytes of programs: ELF, Mach-O in both orders and for several machines, and Windows (PE). */
const MAGIC = ['7f454c46', 'cffaedfe', 'feedfacf', 'cafebabe', '4d5a'];

/** Names of packages below a `node_modules` folder that hold programs for a machine. */
export function packagesWithBinaries(folder: string): Set<string> {
  const found = new Set<string>();
  for (const path of filesBelow(folder)) {
    if (!BINARY_NAME.test(path) && !(isBare(path) && isProgram(path))) continue;
    const name = /^.*(?:^|node_modules\/)((?:@[^/]+\/)?[^/]+)\//.exec(relative(folder, path).split(sep).join('/'))?.[1];
    if (name !== undefined && !name.startsWith('.')) found.add(name);
  }
  return found;
}

function isBare(path: string): boolean {
  return !/\.[^/\\]*$/.test(path) && statSync(path).size > 50_000;
}

function isProgram(path: string): boolean {
  const handle = openSync(path, 'r');
  try {
    const bytes = Buffer.alloc(4);
    readSync(handle, bytes, 0, 4, 0);
    return MAGIC.some((magic) => bytes.toString('hex').startsWith(magic));
  } finally {
    closeSync(handle);
  }
}

function* filesBelow(folder: string): Generator<string> {
  const entries: Dirent[] = readdirSync(folder, { withFileTypes: true });
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* filesBelow(path);
    else if (entry.isFile()) yield path;
  }
}
