import { execa } from 'execa';
import { onPath } from './on-path.ts';

type Env = Readonly<Record<string, string | undefined>>;

const INSTALL = ['install', '-y', '--no-install-recommends'];

/** True where packages can be installed with apt: Debian, Ubuntu and their like, as root. */
export async function canInstall(env: Env): Promise<boolean> {
  return process.getuid?.() === 0 && (await onPath(['apt-get'], env)) !== undefined;
}

/** True where whoever runs this wants nothing installed for the whole machine: `LIFTSIDE_NO_INSTALL` is set. */
export function mayNotInstall(env: Env): boolean {
  const { LIFTSIDE_NO_INSTALL: no = '' } = env;
  return no !== '' && no !== '0';
}

/** The line that a person types to get these Debian packages. */
export function aptLine(packages: readonly string[]): string {
  return ['apt-get', ...INSTALL, ...packages].join(' ');
}

/**
 * Installs Debian packages.
 *
 * @throws when apt-get fails; the error carries its last lines
 */
export async function installWithApt(packages: readonly string[]): Promise<void> {
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  await execa('apt-get', ['update', '-qq'], { env, stdin: 'ignore' });
  await execa('apt-get', [...INSTALL, '-qq', ...packages], { env, stdin: 'ignore' });
}
