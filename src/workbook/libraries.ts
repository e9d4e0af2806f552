import { InputError } from '../base/inputError.ts';
import { messageOf } from './faults.ts';
import { listed } from './nearest.ts';

/** The libraries of a workbook; each is asked for once, when the first cell needs it. */
export class Libraries {
  readonly loaded = new Map<string, object>();
  /** Those that could not be loaded, with the reason. */
  readonly missing = new Map<string, string>();
  readonly #sources: Record<string, () => Promise<object> | object>;
  readonly #loading = new Map<string, Promise<void>>();

  constructor(sources: Record<string, () => Promise<object> | object>) {
    this.#sources = sources;
  }

  get names(): string[] {
    return Object.keys(this.#sources);
  }

  /** A promise to wait for, or null when there is nothing to wait for: loaded, missing or unknown. */
  request(name: string): Promise<void> | null {
    if (this.loaded.has(name) || this.missing.has(name) || !Object.hasOwn(this.#sources, name)) return null;
    const loading = this.#loading.get(name) ?? this.#load(name);
    // A library that came without a promise is there already.
    if (this.loaded.has(name) || this.missing.has(name)) return null;
    this.#loading.set(name, loading);
    return loading;
  }

  #load(name: string): Promise<void> {
    const keep = (library: object) => void this.loaded.set(name, library);
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
    await this.request(String(name));
    const library = this.loaded.get(name);
    if (library) return library;
    const reason = this.missing.get(name);
    if (reason !== undefined) throw new InputError(`The library ${name} could not be loaded: ${reason}`);
    throw new InputError(`There is no library '${name}'; there are ${listed(String(name), this.names)}.`);
  }
}
