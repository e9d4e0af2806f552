/** The part of jsdom that is used here; the package brings no types. */
declare module 'jsdom' {
  export class JSDOM {
    readonly window: object;
    constructor(html: string, options?: { pretendToBeVisual?: boolean });
  }
}
