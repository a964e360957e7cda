/** See note-client.mjs. */
export function noteClient(request: { headers: Record<string, string | string[] | undefined>; socket: { remoteAddress?: string | undefined } }, proxies: number): void;
