import type { Shop } from '../model/index.ts';

/** A machine as an attendee may name theirs. */
export interface MachineChoice {
  readonly id: string;
  readonly title: string;
  /** First and last model year. */
  readonly from: number;
  readonly to: number;
  readonly variants: readonly { readonly id: string; readonly title: string }[];
  readonly regions: readonly string[];
}

/** What stands around every page. */
export interface SiteFrame {
  /** Of the shop. */
  readonly name: string;
  /** BCP 47 tag. */
  readonly language: string;
  /** Address for letters, where the shop has named one. */
  readonly contact?: string;
  /** True where shop and values are invented, which every page then says. */
  readonly invented: boolean;
  readonly machines: readonly MachineChoice[];
}

/** What stands around every page of a shop. */
export function siteFrame({ info, machines }: Shop): SiteFrame {
  return {
    name: info.name,
    language: info.language ?? 'en',
    ...(info.contact ? { contact: info.contact } : {}),
    invented: info.invented ?? false,
    machines: machines.map(({ id, title, years, written }) => ({
      id,
      title,
      from: years.from,
      to: years.to,
      variants: written.machine.variants ?? [],
      regions: written.machine.regions ?? [],
    })),
  };
}
