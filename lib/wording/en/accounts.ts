const roleNames = { manager: "Manager", desk: "Desk" } as const;

/** "4:32 PM", on the park's clock. */
function clock(instant: Date, zone: string): string {
  return new Intl.DateTimeFormat("en-US", { hour: "numeric", minute: "2-digit", timeZone: zone }).format(instant);
}

/** "Nov 25, 4:32 PM", on the park's clock: no link or session lasts long enough to need its year. */
function moment(instant: Date, zone: string): string {
  return new Intl.DateTimeFormat("en-US", { month: "short", day: "numeric", hour: "numeric", minute: "2-digit", timeZone: zone }).format(instant);
}

const minutes = (count: number) => (count === 1 ? "1 minute" : `${count} minutes`);

/** Signing in, joining by a link, one's own account, and the accounts of a park. */
export const accounts = {
  roleNames,
  clock,
  moment,
  bar: { account: "Your account", signOut: "Sign out" },
  fields: { name: "Your name", email: "E-mail", password: "Password", newPassword: "New password", present: "Present password" },
  hints: {
    name: "As the others at the park know you. It stands beside what you change.",
    password: (min: number) => `At least ${min} characters. A few words in a row are easy to keep in mind and hard to guess.`,
  },
  faults: {
    nameMissing: "Enter your name.",
    nameLong: (max: number) => `Use at most ${max} characters.`,
    emailMissing: "Enter an e-mail address.",
    emailForm: "Enter a whole address, such as pat@example.com.",
    passwordMissing: "Enter the password.",
    passwordShort: (min: number, has: number) => `Use at least ${min} characters. This has ${has}.`,
    passwordLong: (max: number) => `Use at most ${max} characters.`,
    passwordIsEmail: "Use something other than your e-mail address.",
    presentWrong: "That is not your present password.",
    emailTaken: "This address has an account already. Use another one, or sign in with it and ask a manager for a link if you forgot the password.",
  },
  signIn: {
    title: "Sign in",
    lead: "For the people who run the park. Guests need no account.",
    submit: "Sign in",
    refused: "That e-mail and password do not go together. Check both and try again.",
    limited: (waits: number, until: string) => `Too many tries. For safety, signing in rests for ${minutes(waits)}, until ${until}. Then try again, or ask a manager for a link to a new password.`,
    forgot: "Forgot the password? A manager can make you a link to set a new one.",
    out: "You are signed out.",
    ended: "Your password is set. Sign in with it.",
    needed: "Sign in first. You then come back to the page you asked for.",
  },
  join: {
    title: "Join",
    heading: (park: string) => `Join ${park}`,
    lead: { manager: "This link makes you a manager of the park. Managers look after its sites, rates, settings, guests’ data and accounts.", desk: "This link lets you in at the desk, where callers are answered and guests are checked in." },
    submit: "Make my account",
    good: "The link works once.",
    goneTitle: "This link no longer works",
    gone: (hours: number) => `It may have been used, replaced, or be more than ${hours} hours old. Ask a manager for a new one.`,
    goneOperator: "For a park’s first manager, a new link is printed each time Padwright is started.",
    have: "Have an account?",
  },
  reset: {
    title: "New password",
    heading: "Set a new password",
    lead: (email: string) => `For ${email}. Every device that is signed in is signed out.`,
    submit: "Set password",
  },
  own: {
    title: "Your account",
    about: (email: string, role: keyof typeof roleNames, park: string) => `${email}. ${roleNames[role]} at ${park}.`,
    name: "Name",
    saveName: "Save name",
    nameSaved: "Saved. What you change from now on carries this name.",
    password: "Password",
    passwordLead: "Changing it signs out your other devices.",
    changePassword: "Change password",
    passwordChanged: "Changed. Your other devices are signed out.",
    limited: (waits: number, until: string) => `Too many tries. Wait ${minutes(waits)}, until ${until}.`,
    sessions: "Where you are signed in",
    sessionsLead: (idleHours: number, days: number) => `After ${idleHours} hours without use, and after ${days} days in any case, you are asked to sign in again.`,
    thisOne: "this device",
    unknownDevice: "Unknown device",
    device: (browser: string, system: string) => `${browser} on ${system}`,
    used: (began: string, used: string) => `Signed in ${began}. Last used about ${used}.`,
    end: (device: string) => `Sign out ${device}`,
    endShort: "Sign out",
    endOthers: "Sign out all other devices",
    signOut: "Sign out here",
  },
  manage: {
    title: "Accounts",
    lead: "Who may sign in at this park, and as what.",
    table: "Accounts of the park",
    seen: (when: string) => `Last seen ${when}`,
    you: "you",
    off: "Switched off",
    neverSeen: "Not signed in",
    makeDesk: "Make desk",
    makeManager: "Make manager",
    switchOff: "Switch off",
    switchOn: "Switch on",
    reset: "Link for a new password",
    actionFor: (action: string, name: string) => `${action}: ${name}`,
    lastManager: "A park keeps at least one manager. Make someone else a manager first.",
    gone: "That account or link is no longer there. The list below is as it stands now.",
    invite: "Invite someone",
    inviteLead: (hours: number) => `You get a link to hand over. It works once, for ${hours} hours. Send it only to the person it is for.`,
    inviteDesk: "Link for the desk",
    inviteManager: "Link for a manager",
    deskMay: "The desk answers callers, books, moves and checks in.",
    managerMay: "A manager also sets rates and settings, sees and erases guests’ data, and makes accounts.",
    linkTitle: "Hand over this link",
    linkFor: { manager: "Whoever opens it can join as a manager.", desk: "Whoever opens it can join for the desk.", reset: (name: string) => `${name} can set a new password with it. Until then the old one still works.` },
    linkOnce: "It is shown this once and cannot be shown again. If it is lost, make a new one.",
    linkLabel: "Link",
    copy: "Copy",
    copied: "Copied",
    open: "Links not yet used",
    openNone: "None.",
    openJoin: (role: keyof typeof roleNames) => `To join as ${role === "manager" ? "a manager" : "desk"}`,
    openReset: (name: string) => `For a new password of ${name}`,
    until: (when: string) => `Good until ${when}`,
    revoke: "End link",
  },
  managersOnly: {
    title: "For managers",
    line: "You are signed in for the desk, and what you asked for is for managers. Ask one of them, or sign out and sign in as one.",
    back: "To the desk",
  },
};
