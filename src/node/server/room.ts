import type { LoadedShop } from '../files/index.ts';
import type { ClassRelay } from './class-relay.ts';
import type { DayDesk } from './day-desk.ts';
import type { Hub } from './hub.ts';
import type { Jobs } from './jobs.ts';
import type { PhoneDesk } from './phone-desk.ts';

/** What the cutting room's routes work with. */
export interface Room {
  /** Absolute path of the content folder, links resolved. */
  readonly content: string;
  /** Absolute path of Liftside. */
  readonly home: string;
  /** Path the site is served under, such as `/`. */
  readonly base: string;
  /** Of this start; our page alone is given it. */
  readonly token: string;
  readonly hub: Hub;
  readonly jobs: Jobs;
  readonly phone: PhoneDesk;
  /** Caption files that recordings name, as far as somebody asked: the only ones that are written here. */
  readonly captionFiles: Set<string>;
  readonly day: DayDesk;
  readonly relay: ClassRelay;
  /** Address for phones, where it was given; otherwise it is found. */
  readonly lan?: string | undefined;
  load(): Promise<LoadedShop>;
  now(): Date;
}
