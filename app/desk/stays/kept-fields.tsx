"use client";

import { createContext, useContext, type ComponentProps, type ReactNode } from "react";

/** What was typed into a form that was refused, by the fields' names. */
export type Typed = Readonly<Record<string, string>>;

const TypedFields = createContext<Typed | null>(null);

/**
 * Within it, fields begin with what was typed. With script they hold it anyway; without, the answer is a new page, which
 * would begin with what is on record.
 */
export function KeepTyped({ typed, children }: { readonly typed: Typed | undefined; readonly children: ReactNode }) {
  return <TypedFields value={typed ?? null}>{children}</TypedFields>;
}

type Named<Tag extends "input" | "select" | "textarea"> = ComponentProps<Tag> & { readonly name: string };

export function KeptInput({ defaultValue, ...field }: Named<"input">) {
  return <input {...field} defaultValue={useContext(TypedFields)?.[field.name] ?? defaultValue} />;
}

export function KeptText({ defaultValue, ...field }: Named<"textarea">) {
  return <textarea {...field} defaultValue={useContext(TypedFields)?.[field.name] ?? defaultValue} />;
}

export function KeptSelect({ defaultValue, ...field }: Named<"select">) {
  return <select {...field} defaultValue={useContext(TypedFields)?.[field.name] ?? defaultValue} />;
}

/** One of several of a name. */
export function KeptRadio({ defaultChecked, value, ...field }: Omit<Named<"input">, "type" | "value"> & { readonly value: string }) {
  const typed = useContext(TypedFields);
  return <input {...field} type="radio" value={value} defaultChecked={typed ? typed[field.name] === value : defaultChecked} />;
}

/** Folded away, but open where the form in or around it was refused, as what is to be put right may be inside, or where `open` says so. */
export function KeptFold({ summary, open = false, children }: { readonly summary: ReactNode; readonly open?: boolean; readonly children: ReactNode }) {
  const refused = useContext(TypedFields) !== null;
  return <details open={refused || open || undefined}><summary>{summary}</summary>{children}</details>;
}
