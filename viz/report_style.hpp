#pragma once

namespace drumlin::viz {

/// What the report's look adds to that of all pages.
inline constexpr char report_style[] = R"(
.verdict{font-size:1.25rem;font-weight:bold;border-left:.45rem solid var(--quiet);padding:.4rem 0 .4rem .8rem}
.verdict.good{border-color:var(--coating)}.verdict.bad{border-color:var(--burr)}
.verdict.good::before{content:'\2713  '}.verdict.bad::before{content:'\2715  '}
.verdict.open::before{content:'?  '}
nav ul{list-style:none;padding:0;display:flex;flex-wrap:wrap;gap:.2rem 1.2rem}
nav a{display:inline-block;padding:.25rem 0}
h1,p,li,td,th,dd,pre,summary{overflow-wrap:anywhere}
td,th{overflow-wrap:normal}td{min-width:6.5rem}tbody th{min-width:8rem}
td.good,td.bad,td.open{white-space:nowrap}td small{white-space:normal;font-weight:normal}
dt{font-weight:bold;margin-top:.5rem}dd{margin:0 0 0 1rem}
pre{white-space:pre-wrap;font-size:.85rem;line-height:1.35;background:var(--wash);padding:.6rem}
.views{display:grid;grid-template-columns:1fr 1fr;gap:.5rem}
.views svg,.stills svg{display:block;width:100%;height:auto}
.moment{display:none}.moment.now{display:inline}
.controls{display:flex;flex-wrap:wrap;gap:.5rem;align-items:center;margin:.6rem 0}
.controls[hidden]{display:none}
.controls button{font:inherit;padding:.5rem 1rem;border:2px solid var(--ink);border-radius:.3rem;
 background:var(--paper);color:var(--ink);cursor:pointer}
.controls button[hidden]{display:none}
.controls label{flex-basis:100%}.controls input{flex:1 1 100%;min-height:2.2rem;accent-color:var(--face)}
.says{font-weight:bold;font-variant-numeric:tabular-nums;min-height:3em}
.why{border-left:.25rem solid var(--line);padding-left:.8rem}
.stills{list-style:none;padding:0;display:grid;grid-template-columns:repeat(3,1fr);gap:1rem}
.stills p{font-size:.85rem;line-height:1.3;margin:.2rem 0}
@media(max-width:40rem){.views{grid-template-columns:1fr}.stills{grid-template-columns:1fr 1fr}}
@media(max-width:40rem){td{min-width:5.4rem}}
@media print{nav,.controls{display:none}.stills li{break-inside:avoid}
 h3,.setup,summary,caption{break-after:avoid}figure svg{max-width:135mm}
 details::details-content{content-visibility:visible;display:block}
 .bulk details:not([open]){display:none}
 .views{grid-template-columns:1fr 1fr;max-width:150mm}.stills{grid-template-columns:repeat(3,1fr)}
 table{font-size:8.5pt}td,tbody th{min-width:0;padding-right:.35rem}
 .caution{display:block!important;border:2px solid #000}}
)";

/// Lets the moments of a pass be played, stepped and dragged. Without it the page shows the telling
/// moment and a strip of stills.
inline constexpr char report_script[] = R"(
'use strict';
for (const pass of document.querySelectorAll('.pass')) {
  const slider = pass.querySelector('input[type=range]');
  const says = pass.querySelector('.says');
  const words = [...pass.querySelector('template').content.querySelectorAll('li')]
    .map((item) => item.textContent);
  const views = [...pass.querySelectorAll('.views svg')]
    .map((view) => [...view.querySelectorAll('.moment')]);
  const play = pass.querySelector('.play');
  let timer = 0;
  const show = (to) => {
    const at = Math.max(0, Math.min(words.length - 1, to));
    for (const moments of views) moments.forEach((moment, i) => moment.classList.toggle('now', i === at));
    slider.value = at;
    slider.setAttribute('aria-valuetext', words[at]);
    says.textContent = words[at];
    pass.dataset.drumX = views[0][at].dataset.drumX;
  };
  const stop = () => {
    clearInterval(timer);
    timer = 0;
    play.textContent = 'Play';
    says.setAttribute('aria-live', 'polite');
  };
  const start = () => {
    says.setAttribute('aria-live', 'off');
    play.textContent = 'Pause';
    if (Number(slider.value) >= words.length - 1) show(0);
    timer = setInterval(() => {
      show(Number(slider.value) + 1);
      if (Number(slider.value) >= words.length - 1) stop();
    }, 160);
  };
  const step = (by) => { stop(); show(Number(slider.value) + by); };
  play.addEventListener('click', () => (timer ? stop() : start()));
  pass.querySelector('.back').addEventListener('click', () => step(-1));
  pass.querySelector('.on').addEventListener('click', () => step(1));
  slider.addEventListener('input', () => { stop(); show(Number(slider.value)); });
  const calm = matchMedia('(prefers-reduced-motion: reduce)');
  const heed = () => { play.hidden = calm.matches; if (calm.matches) stop(); };
  calm.addEventListener('change', heed);
  heed();
  show(Number(slider.value));
  pass.querySelector('.controls').hidden = false;
}
)";

}  // namespace drumlin::viz
