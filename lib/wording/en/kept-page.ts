/** Whether a page is kept on the device for where there is no signal. Told by the browser itself, so this file holds no more than it needs. */
export const keptPage = {
  /** Before anything is known, and where there is no script. */
  open: "Leave this page open, print it or save the PDF: there may be no signal at the site.",
  keeping: "One moment: this page is being kept on your phone.",
  kept: "Kept on this phone: you can open it without signal.",
  not: "Not kept on this phone. Leave this page open or save the PDF.",
  /** The time follows. */
  shown: "No signal: this is the page as it was kept on",
  shownWhy: "It may have changed since. Open it again when you have signal.",
} as const;
