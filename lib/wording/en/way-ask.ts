/** What the way in hangs on and nobody has told. */
export const wayAsk = {
  title: (what: string) => `${what}: the way in hangs on it`,
  turns: (at: string, below: boolean, above: boolean) => (below === above ? `The answer turns at about ${at}.` : below ? `Up to about ${at} we find a way in. Above that we find none.` : `From about ${at} on we find a way in. Below that we find none.`),
  degrees: (at: number, below: boolean) => `Whether there is a way in hangs on how far your hitch can bend before something touches: ${below ? "with less" : "with more"} than about ${at} degrees there is one. Ask at the desk.`,
  yours: "Yours, if you know it",
  usual: (typical: string) => `We took the usual ${typical}. It is in the owner’s manual.`,
  submit: "Look again",
};
