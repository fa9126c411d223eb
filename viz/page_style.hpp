#pragma once

namespace drumlin::viz {

/// How all pages look: one column, letters that a phone and the back row can read, dark lines on
/// paper. Colours are those of `palette`; states are told by a word and a mark, never by colour
/// alone. On paper everything is open and black on white.
inline constexpr char page_style[] = R"(
:root{--ink:#191c21;--quiet:#4d545c;--line:#c9ced4;--paper:#fff;--wash:#f3f5f7;
 --coating:#00724f;--burr:#a84600;--face:#005f96;--metal:#abb2ba}
*{box-sizing:border-box}
body{margin:0 auto;max-width:60rem;padding:0 1rem 3rem;color:var(--ink);background:var(--paper);
 font:1.0625rem/1.5 Arial,Helvetica,'Liberation Sans',sans-serif}
header{padding:1.2rem 0 .6rem;border-bottom:.3rem solid var(--ink)}
h1{font-size:1.6rem;line-height:1.2;margin:.2rem 0}
h2{font-size:1.3rem;margin:2.2rem 0 .6rem;padding-top:.4rem;border-top:1px solid var(--line)}
h3{font-size:1.05rem;margin:1.2rem 0 .2rem}
p,ul,ol{margin:.5rem 0}
a{color:var(--face)}
:focus-visible{outline:3px solid var(--face);outline-offset:2px}
.skip{position:absolute;left:-99rem}.skip:focus{left:1rem;top:.5rem;background:var(--paper)}
.quiet,small,.setup,figcaption+p{color:var(--quiet)}
small{display:block;font-size:.82rem;line-height:1.25}
figure{margin:1rem 0 1.6rem;break-inside:avoid}
figure h3{margin-bottom:0}.setup{font-size:.9rem;margin:.1rem 0 .4rem}
figcaption{font-weight:bold;margin-top:.4rem}
figure svg,.still svg{display:block;width:100%;height:auto;min-width:34rem}
figure .fits svg{min-width:0;max-width:46rem}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;margin:.6rem 0;font-size:.95rem}
caption{text-align:left;font-weight:bold;padding:.3rem 0}
th,td{text-align:left;vertical-align:top;padding:.35rem .7rem .35rem 0;
 border-bottom:1px solid var(--line)}
thead th{border-bottom:2px solid var(--ink);font-size:.9rem}
tbody th{font-weight:normal}
td.good::before{content:'\2713  '}td.bad::before{content:'\2715  '}td.open::before{content:'?  '}
td.good{color:var(--coating)}td.bad{color:var(--burr);font-weight:bold}td.open,.absent{color:var(--quiet)}
details{border:1px solid var(--line);border-radius:.3rem;margin:.6rem 0;padding:0 .8rem}
summary{cursor:pointer;padding:.6rem 0;font-weight:bold}
.caution{border-left:.45rem solid var(--burr);background:var(--wash);padding:.5rem 1rem;margin:1rem 0}
footer{margin-top:2.5rem;border-top:1px solid var(--line);padding-top:.6rem;color:var(--quiet);
 font-size:.85rem;overflow-wrap:anywhere}
@media(max-width:30rem){body{font-size:1rem}h1{font-size:1.3rem}}
@page{margin:16mm 14mm}
@media print{body{max-width:none;font-size:10pt;padding:0}.skip,.only-screen{display:none}
 figure svg,.still svg{min-width:0}.wide{overflow:visible}h2{break-after:avoid}
 details{border:0;padding:0}details>*{display:block}tr{break-inside:avoid}a{color:inherit}}
)";

}  // namespace drumlin::viz
