/** Builds the web application and the worker where their sources have changed since; what it did, in words. See build.mjs. */
export function buildApplication(say: (what: string) => void): Promise<string>;
