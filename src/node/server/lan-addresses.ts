import { networkInterfaces } from 'node:os';

/**
 * Addresses of this machine on networks of the shop's own, IPv4 first: private ones (RFC 1918), those a network without
 * a router gives itself (RFC 3927), shared ones (RFC 6598, as some phones' hotspots use), and unique local IPv6 (RFC 4193).
 */
export function lanAddresses(interfaces = networkInterfaces()): string[] {
  const outside = Object.values(interfaces)
    .flatMap((addresses) => addresses ?? [])
    .filter(({ internal }) => !internal);
  return ['IPv4', 'IPv6'].flatMap((family) =>
    outside.filter((each) => each.family === family && isPrivate(each.address)).map(({ address }) => address),
  );
}

function isPrivate(address: string): boolean {
  if (address.includes(':')) return /^f[cd]/i.test(address);
  const [a = 0, b = 0] = address.split('.').map(Number);
  return (
    a === 10 ||
    (a === 172 && b >= 16 && b <= 31) ||
    (a === 192 && b === 168) ||
    (a === 169 && b === 254) ||
    (a === 100 && b >= 64 && b <= 127)
  );
}

/** As it stands in a web address and in `Host` (RFC 3986, 3.2.2). */
export function hostOf(address: string): string {
  return address.includes(':') ? `[${address}]` : address;
}
