import type { Metadata } from "next";
import { Fragment, type ReactNode } from "react";
import { openApi } from "../../api/describe";
import type { Json, Operation } from "../../api/operation";
import { catalogueOf } from "@/lib/wording";
import { SchemaTable } from "./schema-table";
import styles from "./docs.module.css";

const { docs } = catalogueOf().pages;

export const metadata: Metadata = { title: docs.title };

/** The interface for people, from the same document that machines read. */
export default function ApiPage() {
  const { paths, components, info } = openApi();
  return (
    <main className={styles.main}>
      <h1>{docs.title}</h1>
      <p className={styles.lead}>{docs.lead}</p>
      <p>{info.description}</p>
      <p><a href="/api/openapi.json">{docs.machine}</a></p>
      {Object.entries(paths).map(([path, methods]) => Object.entries(methods).map(([method, operation]) => <Call key={path + method} method={method} path={path} operation={operation} />))}
      <h2>{docs.shapes}</h2>
      {Object.entries(components.schemas).map(([name, schema]) => <Shape key={name} name={name} schema={schema} />)}
    </main>
  );
}

function Call({ method, path, operation }: { readonly method: string; readonly path: string; readonly operation: Operation }) {
  const body = (operation.requestBody?.content as Record<string, { schema: Json; example?: Json }> | undefined)?.["application/json"];
  return (
    <section className={styles.call}>
      <h2><code>{method.toUpperCase()} {path.split(/(?<=\/)/).map((part) => <Fragment key={part}><wbr />{part}</Fragment>)}</code></h2>
      <p><strong>{operation.summary}.</strong> {withCode(operation.description)}</p>
      {body && <p>{docs.request}: <RefLink schema={body.schema} /></p>}
      {operation.parameters && <Parameters list={operation.parameters as unknown as readonly Parameter[]} />}
      {path === "/api/fit" && <Example text={callOfFit} />}
      {body?.example && <Example text={exampleText(body.example)} />}
      <h3>{docs.answers}</h3>
      <dl className={styles.answers}>
        {Object.entries(operation.responses).map(([status, response]) => <div key={status}><dt>{status}</dt><dd>{response.description}</dd></div>)}
      </dl>
    </section>
  );
}

/** What stands between backticks is a name in the code. */
function withCode(text: string): ReactNode {
  return text.split("`").map((part, i) => (i % 2 === 0 ? part : <code key={i}>{part}</code>));
}

interface Parameter {
  readonly name: string;
  readonly in: keyof typeof docs.inPlace;
  readonly required: boolean;
  readonly description: string;
}

function Parameters({ list }: { readonly list: readonly Parameter[] }) {
  return (
    <>
      <h3>{docs.parameters}</h3>
      <dl className={styles.parameters}>
        {list.map(({ name, in: place, required, description }) => (
          <div key={name}><dt><code>{name}</code></dt><dd>{description} <small>({docs.inPlace[place]}, {required ? docs.required : docs.optional})</small></dd></div>
        ))}
      </dl>
    </>
  );
}

const callOfFit = `curl -s localhost:3000/api/fit -H 'content-type: application/json' \\\n  -d '{"park": "quillback-meadow", "rig": { … }, "units": "metric"}'`;

/** One field a line, as deep as two: a rig's own record stays on one. */
function exampleText(example: Json): string {
  const line = (value: unknown) => JSON.stringify(value).replaceAll('":', '": ').replaceAll(",\"", ", \"");
  return `{\n${Object.entries(example).map(([name, value]) => `  "${name}": ${line(value)}`).join(",\n")}\n}`;
}

function Example({ text }: { readonly text: string }) {
  return <figure className={styles.example}><figcaption>{docs.example}</figcaption><pre tabIndex={0}>{text}</pre></figure>;
}

function RefLink({ schema }: { readonly schema: Json }) {
  const name = String(schema.$ref ?? "").split("/").at(-1) ?? "";
  return <a href={`#shape-${name}`}>{name}</a>;
}

function Shape({ name, schema }: { readonly name: string; readonly schema: Json }) {
  return (
    <section className={styles.shape} id={`shape-${name}`} aria-labelledby={`title-${name}`}>
      <h3 id={`title-${name}`}>{name}</h3>
      {typeof schema.description === "string" && <p>{schema.description}</p>}
      <SchemaTable schema={schema} name={name} />
    </section>
  );
}
