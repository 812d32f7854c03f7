/** A value that a page would have to show is not there: the page is not made, so that nobody guesses one. */
export class MissingValue extends Error {
  /** @param what such as `rear-axle-nut` */
  constructor(what: string) {
    super(`${what} has no value that can be shown; liftside check says what is missing`);
    this.name = 'MissingValue';
    // Whoever reads this mends a content file; where in the program it was found helps nobody.
    this.stack = '';
  }
}
