/** What a template can be about: what stands in scope, and how many dossiers are made. */
export const subjects = ["unit", "archive", "change", "study", "rig"] as const;

export type Subject = (typeof subjects)[number];

export function isSubject(text: string): text is Subject {
  return (subjects as readonly string[]).includes(text);
}
