/** Text of `data/README.md`. */
export const dataReadme = `# Demo archive

Everything here is invented: the laboratory, its place, the makers, the models, the switches, the rigs, the readings. Any
likeness to a real keyboard is chance. No number here says anything about a real product.

The story: a laboratory equips public examination halls, where every candidate must get an equal keyboard. It used to
measure one key of a unit (\`keystroke@1\`); since March 2026 it measures eight (\`keystroke@2\`), and since April 2026 also
latency (\`latency@1\`). Some units have been measured both ways, some not yet, some never will be.

Made by a seeded simulator in \`tools/simulation\` and \`tools/demo-data\`, with seed 1, which was not chosen by its results:

\`\`\`
npm run demo-data
\`\`\`

The simulator starts from curves of force over travel for the press and the release of each of a unit's 26 alphabetic
keys, adds tolerances between units and keys, the place on the keyboard, the mounting, the cycles and the tester's own
errors and noise; and for latency the plunger, the contact, debounce, scan, link, computer, display, frames and readers.
The same seed gives the same bytes. A test makes the archive anew and compares, so do not edit these files by hand.

Some things are planted, as they happen in a laboratory: a key unlike its neighbours, units that changed between two
sessions, a force tester that drifted, a calibration that had run out, presses and cycles that went wrong, a
description that does not fit. The true values and sizes are in \`tests/truth\`, which the tool never reads.

Folders: \`methods\` how results are measured and reduced, \`rigs\` the instruments with calibrations and checks, \`units\`
the keyboards with one folder a session, \`studies\` designed experiments. \`force_gf\` columns are in gram-force, as one of
the testers exports them.
`;
