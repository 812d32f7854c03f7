/** A number read from a sentence: its value and the tokens it takes, `to` not included. */
export interface NumberRead {
  readonly value: number;
  readonly from: number;
  readonly to: number;
  /** Written in figures, at least in part. */
  readonly figures: boolean;
  /** `a` or `an`, which is a number only before some units. */
  readonly article?: boolean;
  /** `a couple of`, which is two only before its unit. */
  readonly couple?: boolean;
  /** 100 or 1000 where the number ends in `hundred` or `thousand`. */
  readonly scale?: number;
  /** 8 where eighths are said behind whole ones. */
  readonly parts?: number;
  /** 100 where the number counts hundredths, and so for other fractions in words. */
  readonly denominator?: number;
}
