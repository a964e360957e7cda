/** Told by the browser itself, so this file holds no more than it needs. */
export const connection = {
  lost: "No connection. What is on the page still stands; nothing new can be checked.",
  silent: "The server does not answer. What is on the page still stands; try again in a moment.",
  back: "The connection is back.",
  waiting: "One moment: the next page is on its way.",
};
