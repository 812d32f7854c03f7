/** That devices on the shop's network can get in, and how many have. */
export interface OpenToDevices {
  readonly hosts: readonly string[];
  readonly phones: number;
  readonly until: number;
}
