/** A tenth of a CSS pixel: finer than any screen or printer shows in a picture of our size. */
const DIGITS = 1;
const MANY_DIGITS = /\d+\.\d{2,}/g;

/** Where a picture puts things; everything else (opacity, widths of lines) keeps its digits. */
const PLACES = new Set('d x y x1 y1 x2 y2 cx cy dx dy r rx ry width height points'.split(' '));

/** Numbers of an attribute that places something, rounded; any other as it is. */
export function roundedPlace(name: string, value: string): string {
  // A scale would multiply the error of rounding it.
  if (!PLACES.has(name) && !(name === 'transform' && !value.includes('scale'))) return value;
  return value.replace(MANY_DIGITS, (digits) => String(Number(Number(digits).toFixed(DIGITS))));
}

/** The same document in fewer letters: HTML lets these ends of elements, and attributes without a value, go unwritten. */
export const compact = (html: string): string =>
  html
    .replace(/ class=""/g, '')
    .replace(/><\/(?:circle|ellipse|line|path|rect)>/g, '/>')
    .replace(
      /<\/(?:td|th|tr|li|dt|dd|thead|tbody)>\s*(?=<(?:td|th|tr|li|dt|dd|tbody|\/tr|\/tbody|\/table|\/ul|\/ol|\/dl)\b)/g,
      '',
    );
