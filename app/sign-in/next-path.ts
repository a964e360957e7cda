/** Where to go after signing in: a path of this application, whatever was put into the address. */
export function nextPath(asked: string | undefined): string {
  const usual = "/desk";
  // A second slash or a backslash would lead to another host.
  if (!asked || !/^\/(?![/\\])/.test(asked)) return usual;
  try {
    const { origin, pathname, search } = new URL(asked, "http://here.invalid");
    return origin === "http://here.invalid" && !pathname.startsWith("//") && pathname !== "/sign-in" ? pathname + search : usual;
  } catch {
    return usual;
  }
}
