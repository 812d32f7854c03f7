/**
 * A function that works out each thing it is asked for once, and remembers it by a key. Where so many are remembered,
 * all are forgotten: that is simple, and rare enough.
 */
export function remembered<Asked, Answer extends object>(
  most: number,
  keyOf: (asked: Asked) => string,
  workOut: (asked: Asked) => Answer,
): (asked: Asked) => Answer {
  const known = new Map<string, Answer>();
  return (asked) => {
    const key = keyOf(asked);
    const before = known.get(key);
    if (before) return before;
    const answer = workOut(asked);
    if (known.size >= most) known.clear();
    known.set(key, answer);
    return answer;
  };
}
