#pragma once

namespace drumlin::viz {

/// What lesson pages add to the style of all pages. Prints the sheet and the cautions alone.
inline constexpr char lesson_style[] = R"(
html.large{font-size:150%}html.large body{max-width:none}
.unseen{position:absolute;left:-99rem}
.only-print{display:none}
.bench{display:grid;grid-template-columns:minmax(0,1fr);gap:1rem}.bench>*,fieldset{min-width:0}
.slide{margin:.5rem 0}.slide input{display:block;width:100%;height:2rem}
.slide output{font-weight:bold}
fieldset{border:1px solid var(--line);border-radius:.3rem}fieldset label,.question label{display:block;padding:.25rem 0}
button{font:inherit;padding:.4rem .8rem;margin:.2rem .2rem .2rem 0;border:2px solid var(--ink);border-radius:.3rem;background:var(--paper)}
button[aria-pressed=true]{background:var(--ink);color:var(--paper)}
#lab figure{margin:.4rem 0 .8rem}#lab figure svg{min-width:0}#lab figure svg.contact{min-width:32rem}#lab svg text{font-size:14px;fill:var(--ink)}#lab svg .small{font-size:13px}
#lab.no-number .numbers td{color:var(--quiet)}
.numbers td{font-weight:bold;white-space:nowrap}
.cover{fill:var(--fill-cover)}.metal{fill:var(--fill-metal)}.coat{fill:var(--fill-coating)}.worn{fill:var(--fill-worn)}.burr{fill:var(--fill-burr)}
.belt{fill:none;stroke:var(--fill-belt);stroke-width:4}.round{fill:none;stroke:#4d545c;stroke-width:1.5;stroke-dasharray:6 4}
.strip{stroke:#191c21;stroke-width:9}.was{fill:none;stroke:#191c21;stroke-width:1.5;stroke-dasharray:4 3}
.pressure{fill:var(--fill-face);fill-opacity:.35;stroke:var(--fill-face);stroke-width:3}.axis,.frame{fill:none;stroke:#191c21;stroke-width:2}
.grid line{stroke:#c9ced4}.grid .bare{stroke:var(--burr);stroke-width:2;stroke-dasharray:7 4}.line{fill:none;stroke:var(--face);stroke-width:4}
.marker{fill:#191c21}
.question{border-top:1px solid var(--line);padding:.6rem 0}.guess{font-weight:bold;min-height:1.5em}
@media(min-width:60rem){.bench{grid-template-columns:minmax(0,1fr) minmax(0,1fr)}.bench .pictures{grid-column:2;grid-row:1/3}body:has(#lab){max-width:76rem}}
@media print{main>section:not(.sheet):not(.read-aloud){display:none}.only-print{display:block}
 .asked{break-inside:avoid}.asked h3{margin:.5rem 0 .1rem}.asked p{margin:.2rem 0}.choice{display:inline-block;margin-right:1.5em}
 .rule{border-bottom:1px solid #4d545c;min-height:2.1em}footer{margin-top:.5rem;font-size:7.5pt}table{break-inside:avoid}td.blank{border:1px solid #4d545c;min-width:7em;height:1.9em;padding:.3rem}
 .read-aloud li{font-size:8.5pt}.sheet{break-before:page}.asked .choice{color:#000}}
)";

}  // namespace drumlin::viz
