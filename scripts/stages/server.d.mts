/** See server.mjs. */
export interface RunningServer {
  /** Stops it in order, and waits until it is gone. */
  stop(): Promise<void>;
  /** Kills it outright. */
  drop(): void;
  /** Resolves when it has gone. */
  readonly ended: Promise<string>;
}

export function startServer(settings: { readonly PORT: number; readonly HOST: string; readonly DATABASE_URL: string; readonly dev: boolean }): Promise<RunningServer>;
