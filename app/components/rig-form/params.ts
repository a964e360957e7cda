export type Params = Record<string, string | string[] | undefined>;

/** Nothing a field can mean is longer. */
const LONGEST = 80;
/** Nor are there more values of one name. */
const MOST = 20;

export function one(value: string | string[] | undefined): string | undefined {
  const first = Array.isArray(value) ? value[0] : value;
  return first?.slice(0, LONGEST);
}

/** What was typed into a field; undefined where it was left as it came, empty. */
export function typed(value: string | string[] | undefined): string | undefined {
  const text = one(value);
  return text === undefined || text.trim() === "" ? undefined : text;
}

export function list(value: string | string[] | undefined): string[] {
  return (Array.isArray(value) ? value : value === undefined ? [] : [value]).slice(0, MOST).map((v) => v.slice(0, LONGEST)).filter((v) => v !== "");
}

/** The parameters of an address, as a page is given them. */
export function paramsOf(search: URLSearchParams): Params {
  const params: Params = Object.create(null) as Params;
  for (const name of new Set(search.keys())) {
    const all = search.getAll(name);
    params[name] = all.length === 1 ? all[0] : all;
  }
  return params;
}
