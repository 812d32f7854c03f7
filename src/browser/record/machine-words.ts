import type { Chosen } from '../my-machine/chosen.ts';

/** A machine as a service record names it: `Tarn 420, 2020`. */
export function machineInWords(title: string, chosen: Chosen | undefined): string {
  return [title, chosen?.year, chosen?.variant, chosen?.region].filter((part) => part !== undefined).join(', ');
}
