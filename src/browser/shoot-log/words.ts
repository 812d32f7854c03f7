/** How the cutting room answers: it does; nobody does; it says no for good; it cannot keep what it is sent now. */
export type Link = 'there' | 'away' | 'refused' | 'failing';

export interface Standing {
  readonly link: Link;
  /** Taps that the cutting room has not confirmed. */
  readonly waiting: number;
  /** True where the phone has them on its own disk as well. */
  readonly stored: boolean;
  /** What the cutting room said when it said no. */
  readonly problem: string;
}

/** Where the taps are, in words. It never says more than is so: confirmed, kept on this phone, or on this page only. */
export function whereTapsAre({ link, waiting, stored, problem }: Standing): string {
  const count = waiting === 1 ? '1 tap waits' : `${waiting} taps wait`;
  const kept = stored
    ? `${waiting === 1 ? 'it is' : 'they are'} kept on this phone.`
    : `${waiting === 1 ? 'it is' : 'they are'} on this page only, since the phone does not store ${waiting === 1 ? 'it' : 'them'}: leave the page open and hand ${waiting === 1 ? 'it' : 'them'} over below.`;
  if (link === 'refused')
    return waiting === 0
      ? `Not sent any more: ${problem}. Scan a new code from the cutting room.`
      : `Not sent any more: ${problem}. ${count}; ${kept} Scan a new code from the cutting room, or hand ${waiting === 1 ? 'it' : 'them'} over below.`;
  if (waiting === 0)
    return link === 'away'
      ? 'The cutting room does not answer. Everything tapped so far is in it.'
      : 'Everything is in the cutting room.';
  if (link === 'failing') return `${count}: ${problem}; ${kept}`;
  return `${count}${link === 'away' ? ' for the network' : ''}; ${kept}`;
}
