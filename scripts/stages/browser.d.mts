/** The browser for tests and measurements; throws, naming the command that brings one, where there is none. See browser.mjs. */
export function findBrowser(say: (what: string) => void): Promise<string>;
