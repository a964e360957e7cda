/** The list of pages from which a park is run. */
export const managePark = {
  title: "Running the park",
  lead: "What the park charges, what it asks of a fit, who works here, and what leaves the park by mail or calendar.",
  entries: {
    accounts: { name: "Accounts", about: "Who may sign in, and as what." },
  },
};
