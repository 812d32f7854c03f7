import { fromSeconds, printClockTime } from '../core/time/index.ts';

/**
 * The address of a chapter at its time, for a QR code: whole, with the site it is on.
 * Nothing while the shop's address is not known.
 */
export function chapterAddress(site: URL | undefined, path: string, at: number | undefined): string | undefined {
  if (!site) return undefined;
  const address = new URL(path, site);
  if (at !== undefined) address.hash = `t=${Math.floor(at)}`;
  return address.href;
}

/** A moment of the programme as a player shows it: m:ss, or h:mm:ss from an hour on. */
export function playTime(seconds: number): string {
  return printClockTime(fromSeconds(Math.floor(seconds))).replace(/^0:0?/, '');
}
