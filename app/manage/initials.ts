/** Measurements name people by a short mark, never by their whole name. Of a name without letters the name itself. */
export function initialsOf(name: string): string {
  const initials = name.split(/\s+/).flatMap((word) => word.slice(0, 1)).join("").toUpperCase();
  return initials === "" ? name.slice(0, 80) || "?" : initials.slice(0, 4);
}
