import { networkInterfaces } from 'node:os';

/** Address of this machine on the shop's own network: the first private IPv4 address (RFC 1918); nothing without one. */
export function lanAddress(interfaces = networkInterfaces()): string | undefined {
  return Object.values(interfaces)
    .flatMap((addresses) => addresses ?? [])
    .find(({ family, internal, address }) => family === 'IPv4' && !internal && isPrivate(address))?.address;
}

function isPrivate(address: string): boolean {
  const [a = 0, b = 0] = address.split('.').map(Number);
  return a === 10 || (a === 172 && b >= 16 && b <= 31) || (a === 192 && b === 168);
}
