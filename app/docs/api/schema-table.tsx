import { catalogueOf } from "@/lib/wording";
import type { Json } from "../../api/operation";
import styles from "./docs.module.css";

const { docs } = catalogueOf().pages;
/** Fields of fields are shown this far down; the machine-readable description has the rest. */
const DEEPEST = 4;

interface Row {
  readonly path: string;
  readonly type: string;
  readonly required: boolean;
  readonly meaning: string;
}

export function SchemaTable({ schema, name }: { readonly schema: Json; readonly name: string }) {
  return (
    <div className={styles.scroll} role="region" aria-label={`${docs.shapes}: ${name}`} tabIndex={0}>
      <table>
        <thead><tr><th scope="col">{docs.field}</th><th scope="col">{docs.type}</th><th scope="col">{docs.meaning}</th></tr></thead>
        <tbody>
          {rowsOf(schema, "", 0).map((row) => (
            <tr key={row.path}><th scope="row"><code>{row.path}</code></th><td>{row.type}</td><td>{[row.meaning, row.required ? docs.required : docs.optional].filter(Boolean).join("; ")}</td></tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** A schema's fields as rows, those inside objects and lists beneath their own. */
function rowsOf(schema: Json, prefix: string, depth: number): Row[] {
  const inner = unwrapped(schema);
  if (inner.type === "array" && depth < DEEPEST && isRecord(inner.items)) return rowsOf(inner.items, `${prefix}[]`, depth);
  if (!isRecord(inner.properties) || depth >= DEEPEST) return [];
  const required = Array.isArray(inner.required) ? inner.required : [];
  return Object.entries(inner.properties).flatMap(([field, value]) => {
    if (!isRecord(value)) return [];
    const path = prefix ? `${prefix}.${field}` : field;
    return [{ path, type: typeOf(value), required: required.includes(field), meaning: meaningOf(value) }, ...rowsOf(value, path, depth + 1)];
  });
}

/** What stands beside null, where null is allowed. */
function unwrapped(schema: Json): Json {
  const others = Array.isArray(schema.anyOf) ? schema.anyOf.filter((s): s is Json => isRecord(s) && s.type !== "null") : [];
  return others.length === 1 ? { ...others[0], ...(schema.description ? { description: schema.description } : {}) } : schema;
}

function typeOf(schema: Json): string {
  const inner = unwrapped(schema);
  if (typeof inner.$ref === "string") return inner.$ref.split("/").at(-1) ?? "";
  if (Array.isArray(inner.enum)) return inner.enum.map((v) => JSON.stringify(v)).join(" | ");
  if (inner.const !== undefined) return JSON.stringify(inner.const);
  if (Array.isArray(inner.prefixItems)) return `[${inner.prefixItems.map((s) => (isRecord(s) ? typeOf(s) : "")).join(", ")}]`;
  if (inner.type === "array") return `list of ${isRecord(inner.items) ? typeOf(inner.items) : "anything"}`;
  return typeof inner.type === "string" ? inner.type : "anything";
}

function meaningOf(schema: Json): string {
  const { description } = unwrapped(schema);
  const fallback = schema.default !== undefined && typeof schema.default !== "object" ? `${JSON.stringify(schema.default)} where left out` : "";
  return [typeof description === "string" ? description.replace(/\.$/, "") : "", fallback].filter(Boolean).join("; ");
}

function isRecord(value: unknown): value is Json {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
