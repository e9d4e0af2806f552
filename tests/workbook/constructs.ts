/** Each exports some values; TypeScript's own output and ours must export the same. */
export const CONSTRUCTS: Record<string, string> = {
  annotations: `const a: number = 1, b: string[] = ['x']; let c!: number; c = 2; export { a, b, c };`,
  functions: `function f<T extends object, U = T>(this: unknown, a: T, b?: U, ...rest: number[]): [T, U?] { return [a, b, ...rest] as any; }
export const r = f.call(null, { a: 1 }, undefined, 3);`,
  overloads: `export function f(a: string): string;\nexport function f(a: number): number;\nexport function f(a: any) { return a; }\nexport const r = [f(1), f('a')];`,
  thisOnly: `function f(this: { n: number },) { return this.n; } export const r = f.call({ n: 3 });`,
  arrows: `const f = <T,>(a: T): T => a; const g = async <T>(a: T): Promise<T> => a; const h = (a: number, b?: number): a is 1 => a === 1;
export const r = [f(1), await g(2), h(1)];`,
  arrowReturnOverLines: `const f = (a: number): {\n  x: number;\n} => ({ x: a });\nconst g = async (\n a: number,\n): Promise<\n number\n> => a;\nexport const r = [f(1), await g(2)];`,
  arrowTypeParametersOverLines: `function make() {\n return <\n  T,\n >(a: T) => a;\n}\nconst g = async <\n T,\n>(a: T) => a;\nexport const r = [make()(1), await g(2)];`,
  arrowNoParameters: `const f = ():\n number => 1; export const r = f();`,
  asBeforeBracket: `const log: unknown[] = [];\nconst x = 1 as any\n;[2].forEach((n) => log.push(n))\nlet y: unknown = x as number\n(log as any).push(y)\nexport { log };`,
  asAtEnds: `let a: unknown\na = 1 as any\n(a as any)\nconst f = () => 2 as any\n;(3)\nexport const r = [a, f()] satisfies unknown[]\n[0]`,
  asInLoop: `let n = 0; for (let i = 0 as number; i < 3; i++) n += i; for (const x of [1, 2] as number[]) n += x; export { n };`,
  asNested: `export const r = ((1 as unknown as string) as any)!; export const s = ({ a: 1 } as const).a + (2 as number);`,
  parenthesised: `const x = (1) as number; const y = ((x)!)!; export const r = [x, y];`,
  nonNull: `const o: { a?: { b?: number } } = { a: { b: 1 } }; export const r = [o.a!.b!, o!.a?.b!, o?.a!.b]; let n: number | undefined = 1; n!++; export { n };`,
  assignToAs: `let x: unknown; (x as number) = 5; [x as any] = [6]; export { x };`,
  typeArguments: `class Box<T> { v: T; constructor(v: T) { this.v = v; } } const id = <T>(a: T) => a; const tag = <T>(s: TemplateStringsArray) => s[0];
export const r = [id<number>(1), new Box<string>('x').v, tag<1>\`y\`, id?.<number>(3), new Map<string, Array<number>>().size]; const inst = id<number>; export const q = inst(4);`,
  comparisons: `const a = 1, b = 2, c = 3; export const r = [a < b, a < b && c > (b), (a < b) as boolean, a >> 1 > c, c >>> 0];`,
  classes: `abstract class Base<T> { abstract size: number; abstract area(): number; protected readonly kind: string = 'b'; get(): string { return this.kind; } }
interface Shape { area(): number }
class Square extends Base<number> implements Shape, Iterable<number> { private side: number; size = 1; static readonly unit?: string = 'm'; declare gone: number; [key: string]: any; static #count: number = 0;
 constructor(side: number); constructor(side: any) { super(); this.side = side; Square.#count++; } public override area(): number { return this.side ** 2; } maybe?(): number { return 1; } *[Symbol.iterator](): Iterator<number> { yield this.side; } static get count(): number { return Square.#count; } }
const s = new Square(3); export const r = [s.area(), s.get(), [...s], Square.unit, Square.count, 'gone' in s, s.maybe?.()];`,
  classAsi: `class A { get: number\n foo() { return 1 }\n a = 1\n private *gen() { yield 1 }\n b = 2\n readonly ['c'] = 3\n d = 4 as any\n ['e'] = 5\n static: number\n f() { return 2 } }
const a: any = new A(); export const r = [Object.keys(a), a.foo(), [...a.gen()], a.f()];`,
  fieldNames: `class A { readonly = 1; declare = 2; abstract?: number = 3; private() { return 4 } type = 5; as = 6; static async = 7 } const a: any = new A(); export const r = [{ ...a }, a.private(), A.async];`,
  typeWords: `const type = 1; const of = 2; const as = 3, is = 4, satisfies = 5, declare = 6, namespace = 7, module = 8, keyof = 9; export const r = [type, of, as as number, is, satisfies, declare, namespace, module, keyof];`,
  erasedStatements: `const log: number[] = []\ntype A = { a: 1 }\n;[1].forEach((n) => log.push(n))\ninterface B { b: 2 }\n(log as any).push(2)\ndeclare const nothing: number\ndeclare function none(): void\ndeclare namespace N { const x: 1 }\nnamespace T { export type X = 1; interface Y { } }\nexport { log };`,
  typeExports: `type A = 1; interface B { b: 2 } export type { A }; export { type B }; export type C = A; export interface D extends B { d: 3 } export const r = 1;`,
  typesWithText: `type S = 'a\\'b' | \`x\${string}\`; interface I { 'quoted key': string; [\`t\`]: 1; /* } */ c: '{'; } type F = (a: () => void) => new () => { x: 1 }; type G = S extends infer X ? X : never; export const r = '}';`,
  conditional: `const a = true, b = (x: number): number => x; export const r = a ? (b as any)(1) : 2; export const q = a ? (x: number): number => x + 1 : null; export const z = q!(1);`,
  destructuring: `const { a, b: [c] }: { a: number; b: number[] } = { a: 1, b: [2] }; function f({ x = 1, y }: { x?: number; y: number }, [z]: [number] = [9]): number { return x + y + z; } export const r = [a, c, f({ y: 2 })];`,
  objects: `const o = { m<T>(a: T): T { return a; }, get g(): number { return 1; }, set g(v: number) {}, async *n(): AsyncGenerator<number> { yield 1; }, ['c']: (x: number): number => x, p: <number>(q: number) => q };
export const r = [o.m(1), o.g, (await o.n().next()).value, o.c(2), o.p(3)];`,
  catches: `let r: unknown; try { throw 1; } catch (e: unknown) { r = e as number; } export { r };`,
  defaultFunction: `export default function (): number { return 1 }\n(2)\nexport const r = 3`,
  defaultExpression: `export default [1, 2] as const\nexport const r = 1`,
  defaultArrow: `export default (a: number): number => a`,
  defaultClass: `export default class<T> { v?: T }\n;[1]`,
  defaultNamed: `export const early = later(); export default function later(): number { return 4 }`,
  defaultParenthesised: `export default (1, 2) // twice\nexport const r = 1`,
  reExportHoists: `export { f as g }; export const r = f(); function f(): number { return 1 }`,
  unicode: `const größe: number = 1, \u{1D4CD}: string = '😀' as string; export const r = [größe, \u{1D4CD}]; /* 😀 */ const q: '😀' = '😀' as const; export { q as 'ü-1' };`,
  carriageReturns: `const a: number = 1\r\ntype T = {\r\n a: 1 }\r\nexport const r = a as T extends 1 ? 1 : any\r\n;[2]`,
  comments: `const a /* ? */ : /* : */ number /* = */ = 1; function f(a /* ! */ ? /* x */ : number, /* , */ b?: /* ) */ number /* } */) { return [a, b]; } export const r = [a, f()];`,
  returnAs: `function f() { return 1 as any\n(2) }\nfunction g(): number { throw 3 as unknown\n;[4] }\nlet c; try { g() } catch (e) { c = e }\nexport const r = [f(), c];`,
  asyncGenerators: `async function* f<T>(a: T): AsyncGenerator<T> { yield a; } const all: unknown[] = []; for await (const x of f<number>(1)) all.push(x); export { all };`,
  abstractConstructor: `type C = abstract new (...a: any[]) => object; const make = (c: C): string => c.name; export const r = make(class Foo {});`,
  accessorsAndPrivate: `class A { #x: number = 1; get x(): number { return this.#x; } set x(v: number) { this.#x = v; } has(o: object): o is A { return #x in o; } } const a = new A(); a.x = 5; export const r = [a.x, a.has(a)];`,
  lineBreaksInTypes: `const a: {\n  b: number;\n  c: string;\n} = { b: 1, c: '' };\nfunction f(\n  a: number,\n  b: {\n    c: 1;\n  },\n): {\n  d: 1;\n} {\n  return { d: 1 };\n}\nexport const r = [a, f(1, { c: 1 })];`,
};
