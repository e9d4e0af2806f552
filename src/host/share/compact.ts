/** The beginning of a tag as a browser writes it: in text `<`, in a value `"` is escaped. */
const TAG = /<[a-z][\w-]*(?: [\w:-]+="[^"]*")+(?!\/)/gi;
const PLAIN_VALUE = /="([\w.,()%-]+)"/g;

/** The same document in fewer letters: HTML lets these ends of elements, quotes, and attributes without a value go unwritten. */
export const compact = (html: string): string =>
  html
    .replace(/><\/(?:circle|ellipse|line|path|rect)>/g, '/>')
    .replace(
      /<\/(?:td|th|tr|li|dt|dd|thead|tbody)>\s*(?=<(?:td|th|tr|li|dt|dd|tbody|\/tr|\/tbody|\/table|\/ul|\/ol|\/dl)\b)/g,
      '',
    )
    .replace(TAG, (tag) => tag.replace(/ class=""/, '').replace(PLAIN_VALUE, '=$1'));
