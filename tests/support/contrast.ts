/**
 * Relative luminance of a colour, 0 to 1 (WCAG 2.2, definition of relative luminance).
 *
 * @param rgb 0 to 255
 */
export function luminance([red = 0, green = 0, blue = 0]: readonly number[]): number {
  const [r = 0, g = 0, b = 0] = [red, green, blue]
    .map((part) => part / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/**
 * Contrast ratio of two luminances (WCAG 2.2, definition of contrast ratio).
 *
 * @param stray light that falls on both: 0.05 on a screen, by that definition
 */
export function contrast(a: number, b: number, stray = 0.05): number {
  return (Math.max(a, b) + stray) / (Math.min(a, b) + stray);
}
