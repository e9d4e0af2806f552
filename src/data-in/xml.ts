import { Parser } from 'saxen';
import { InputError } from '../base/inputError.ts';

interface XmlHandlers {
  /** Names come without the prefix of their namespace; attributes as they stand. */
  open(name: string, attribute: (name: string) => string | undefined): void;
  close(name: string): void;
  text?(text: string): void;
}

const DECLARED = /^<\?xml[^>]*encoding\s*=\s*["']([\w-]+)["']/;
/** Encodings that XML of our kinds is written in; others are read as UTF-8, which shows. */
const ENCODINGS = ['utf-8', 'utf-16', 'utf-16le', 'utf-16be', 'iso-8859-1', 'windows-1252', 'us-ascii'];

/** The text of an XML file in the encoding that its mark or its first line names. */
export function xmlText(bytes: Uint8Array): string {
  const mark = bytes.length > 1 ? bytes[0]! * 256 + bytes[1]! : 0;
  if (mark === 0xfffe) return new TextDecoder('utf-16le').decode(bytes);
  if (mark === 0xfeff) return new TextDecoder('utf-16be').decode(bytes);
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, 200)).replace(/^\u00ef\u00bb\u00bf/, '');
  const declared = DECLARED.exec(start)?.[1]?.toLowerCase() ?? 'utf-8';
  const known = ENCODINGS.includes(declared) && !declared.startsWith('utf-16');
  return new TextDecoder(known ? declared : 'utf-8').decode(bytes);
}

const localName = (name: string) => name.slice(name.indexOf(':') + 1);

/**
 * Walks through XML. A document type is refused: it could declare entities that unfold without end or name other files,
 * and none of the formats read here has one.
 *
 * Throws    InputError for text that is not well formed or has a document type; `file` names it
 */
export function walkXml(text: string, file: string, handlers: XmlHandlers): void {
  const { open, close, text: onText } = handlers;
  const fault = (why: string) => new InputError(`${file}: ${why}`, { file });
  const parser = new Parser();
  parser.on('openTag', (name, attributes, decode) => {
    let all: Record<string, string> | null = null;
    open(localName(name), (wanted) => {
      all ??= attributes();
      return Object.hasOwn(all, wanted) ? decode(all[wanted]!) : undefined;
    });
  });
  parser.on('closeTag', (name) => close(localName(name)));
  if (onText) {
    parser.on('text', (value, decode) => onText(decode(value)));
    parser.on('cdata', onText);
  }
  parser.on('attention', () => {
    throw fault('declares a document type, which files of this kind do not have; expected it without');
  });
  parser.on('error', (error) => {
    if (error instanceof InputError) throw error;
    throw fault(`damaged XML (${error.message}); expected the whole file`);
  });
  parser.parse(text.replace(/^\uFEFF/, ''));
}
