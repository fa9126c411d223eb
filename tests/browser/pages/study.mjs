// The page about a finished study: with a front, and one without aims of which some rows fail.
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';

const plain = (examples) => `title = "Without aims"
case = "${join(examples, 'panel-soft.toml')}"
model = "fast"
[design]
kind = "latin-hypercube"
size = 200
[[factor]]
key = "station[0].setting.interference"
distribution = { kind = "normal", mean = "6 mm", deviation = "0.8 mm" }
`;

/** Makes the pages in a folder and lists them. */
export function pages({ program, examples, folder }) {
  writeFileSync(join(folder, 'plain.toml'), plain(examples));
  const studies = { front: join(examples, '../studies/front.toml'), plain: join(folder, 'plain.toml') };
  return Object.entries(studies).map(([name, study]) => {
    const out = join(folder, `study-${name}`);
    execFileSync(program, ['sweep', study, '--out', out, '--quiet']);
    return {
      name: `study ${name}`,
      file: join(out, 'study.html'),
      // Words that have to be there with scripts off too.
      says: ['not a safety assessment', 'SHA-256', 'What was varied', 'How sure this is'],
    };
  });
}
