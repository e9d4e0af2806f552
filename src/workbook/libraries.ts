import { InputError } from '../base/inputError.ts';
import { messageOf } from './faults.ts';
import { listed } from './nearest.ts';

type Sources = Record<string, () => Promise<object> | object>;

/** The libraries of a workbook; each is asked for once, when the first cell needs it. */
export class Libraries {
  /** What there is of each: all of it, or the part that is there early. */
  readonly loaded: Map<string, object>;
  /** Those that could not be loaded, with the reason. */
  readonly missing = new Map<string, string>();
  readonly #sources: Sources;
  readonly #loading = new Map<string, Promise<void>>();
  readonly #whole = new Set<string>();

  constructor(sources: Sources, early: Readonly<Record<string, object>> = {}) {
    this.#sources = sources;
    this.loaded = new Map(Object.entries(early));
  }

  get names(): string[] {
    return Object.keys(this.#sources);
  }

  /** A promise to wait for, or null when there is nothing to wait for: these names are there, or never will be. */
  request(library: string, names: readonly string[]): Promise<void> | null {
    if (!Object.hasOwn(this.#sources, library) || this.#settled(library)) return null;
    const early = this.loaded.get(library);
    if (early && names.every((name) => name in early)) return null;
    const loading = this.#loading.get(library) ?? this.#load(library);
    // A library that came without a promise is there already.
    if (this.#settled(library)) return null;
    this.#loading.set(library, loading);
    return loading;
  }

  #settled(library: string): boolean {
    return this.#whole.has(library) || this.missing.has(library);
  }

  #load(name: string): Promise<void> {
    const keep = (library: object) => {
      this.loaded.set(name, library);
      this.#whole.add(name);
    };
    const fail = (fault: unknown) => void this.missing.set(name, messageOf(fault));
    try {
      const library = this.#sources[name]!();
      if (library instanceof Promise) return library.then(keep, fail);
      keep(library);
    } catch (fault) {
      fail(fault);
    }
    return Promise.resolve();
  }

  /** For import() in the middle of a cell. */
  async dynamic(name: string): Promise<object> {
    await this.request(String(name), ['*']);
    if (this.#whole.has(name)) return this.loaded.get(name)!;
    const reason = this.missing.get(name);
    if (reason !== undefined) throw new InputError(`The library ${name} could not be loaded: ${reason}`);
    throw new InputError(`There is no library '${name}'; there are ${listed(String(name), this.names)}.`);
  }
}
