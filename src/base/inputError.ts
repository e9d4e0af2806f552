/** Where in what the user gave the fault lies; every part is optional, the most exact one known is shown. */
export interface InputPlace {
  file?: string;
  /** 1-based line of the text. */
  line?: number;
  /** 1-based character position in the line. */
  column?: number;
  /** 0-based row of a table below its heading. */
  row?: number;
  /** Heading of the column, or name of the field or option. */
  field?: string;
}

/**
 * Something the user gave cannot be used. The message is one sentence that says what is wrong, where, and
 * what is expected instead, so that it can be shown as it is. Anything else that is thrown is our own fault.
 */
export class InputError extends Error {
  override readonly name = 'InputError';
  readonly place: InputPlace;

  constructor(message: string, place: InputPlace = {}) {
    super(message);
    this.place = place;
  }
}

/** Nothing is wrong: the user has yet to give what is needed. The message is a whole sentence that says what. */
export class NotYetError extends InputError {
  /** Asked for instead of the class: cells and their libraries may hold copies of it. */
  readonly notYet = true;
}

/**
 * Whether what was thrown only asks for what the reader has yet to enter; true of a `NotYetError` of any copy of this
 * module.
 */
export const isNotYet = (fault: unknown): boolean =>
  fault instanceof Error && (fault as Partial<NotYetError>).notYet === true;
