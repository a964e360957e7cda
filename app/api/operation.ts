export type Json = Record<string, unknown>;

/** A call as the readable page shows it. */
export interface Operation {
  readonly summary: string;
  readonly description: string;
  readonly requestBody?: Json;
  readonly parameters?: readonly Json[];
  readonly responses: Readonly<Record<string, { readonly description: string } & Json>>;
}
