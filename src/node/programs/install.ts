import { execa } from 'execa';
import { onPath } from './on-path.ts';

/** True where packages can be installed with apt: Debian, Ubuntu and their like, as root. */
export async function canInstall(env: Readonly<Record<string, string | undefined>>): Promise<boolean> {
  return process.getuid?.() === 0 && (await onPath(['apt-get'], env)) !== undefined;
}

/**
 * Installs Debian packages.
 *
 * @throws when apt-get fails; the error carries its last lines
 */
export async function installWithApt(packages: readonly string[]): Promise<void> {
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  await execa('apt-get', ['update', '-qq'], { env, stdin: 'ignore' });
  await execa('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], { env, stdin: 'ignore' });
}
