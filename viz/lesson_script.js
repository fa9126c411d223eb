// The lesson's sliders and pictures. Every number comes from the table in the page, none is
// reckoned here: what the script adds is where things are drawn.
(function () {
  'use strict';
  var byId = function (id) { return document.getElementById(id); };
  var meta = JSON.parse(byId('lesson-data').textContent);
  var bytesOf = function (id) {
    var text = atob(byId(id).textContent.trim());
    var bytes = new Uint8Array(text.length);
    for (var i = 0; i < text.length; i += 1) { bytes[i] = text.charCodeAt(i); }
    return bytes;
  };
  var steps = bytesOf('lesson-steps');
  var shapes = bytesOf('lesson-shapes');
  var axes = meta.axes;
  var count = function (name) { return axes[name].level.length; };
  var depths = count('depth') + count('thickness') - 1;
  var byDepth = count('cover') * count('speed') * count('tension') * count('feed') * depths;
  var stepBytes = 32;
  var shapePoints = 16;

  var place = { by_load: meta.by_load };
  Object.keys(axes).forEach(function (name) { place[name] = axes[name].own; });

  // The same order as Lesson::index of the program.
  function indexOf(at) {
    var drum = at.cover * count('speed') + at.speed;
    if (!at.by_load) {
      return ((drum * count('tension') + at.tension) * count('feed') + at.feed) * depths +
        at.depth + at.thickness;
    }
    return byDepth + ((drum * count('feed') + at.feed) * count('load') + at.load) *
      count('thickness') + at.thickness;
  }
  function word(at) { return steps[at] + 256 * steps[at + 1]; }
  function stepAt(at) {
    var from = indexOf(at) * stepBytes;
    var step = { flags: word(from + 28), outcome: meta.outcomes[word(from + 30)] || '' };
    meta.columns.forEach(function (column, i) {
      var code = word(from + 2 * i);
      if (code === 0) { return; }
      if (!column.logarithmic) {
        step[column.key] = column.low + (column.high - column.low) * (code - 1) / 65534;
      } else {
        step[column.key] = code === 1 ? 0
          : column.low * Math.pow(column.high / column.low, (code - 2) / 65533);
      }
    });
    step.hidden = (step.flags & meta.hides) !== 0;
    return step;
  }
  function decimalsOf(key) {
    return meta.columns.filter(function (c) { return c.key === key; })[0];
  }
  function shown(step, key) {
    if (step.hidden) { return 'no number'; }
    if (step[key] === undefined) { return 'absent'; }
    var column = decimalsOf(key);
    return step[key].toFixed(column.decimals) + ' ' + column.unit;
  }
  function set(id, name, value) { var e = byId(id); if (e) { e.setAttribute(name, value); } }
  function say(id, text) {
    var e = byId(id);
    if (e && e.textContent !== text) { e.textContent = text; }
  }
  function show(id, on) { set(id, 'visibility', on ? 'visible' : 'hidden'); }

  // Scales: laid out once for the whole page, so that nothing jumps.
  var span = 0;
  meta.columns.forEach(function (c) { if (c.key === 'half_width') { span = 1.25 * c.high; } });
  span = Math.min(span, 0.45 * meta.radius);
  var middle = 200;
  var perMm = 190 / span;
  var exaggeration = Math.max(1, Math.round(60 / perMm / Math.max(0.3,
    axes.depth.level[count('depth') - 1])));
  var faceY = 150;
  var lowP = 1e9;
  var highP = 0;
  meta.columns.forEach(function (c) {
    if (c.key === 'face_pressure' || (c.key === 'burr_pressure' && meta.burr)) {
      lowP = Math.min(lowP, c.low);
      highP = Math.max(highP, c.high);
    }
  });
  var decadeLow = Math.floor(Math.log10(lowP));
  var decadeHigh = Math.ceil(Math.log10(highP));
  var plotTop = 225;
  var plotBottom = 365;
  function pressureY(p) {
    var share = (Math.log10(Math.max(p, 1e-12)) - decadeLow) / (decadeHigh - decadeLow);
    return plotBottom - (plotBottom - plotTop) * Math.min(1, Math.max(0, share));
  }
  function nice(value) {
    var unit = Math.pow(10, Math.floor(Math.log10(value)));
    var figure = value / unit;
    return unit * (figure <= 1 ? 1 : figure <= 2 ? 2 : figure <= 5 ? 5 : 10);
  }
  function copyOf(at) { var c = {}; Object.keys(at).forEach(function (k) { c[k] = at[k]; }); return c; }
  var ownRemoval = stepAt(place).removal || 10;
  var chartTop = nice(meta.coating ? Math.max(3 * meta.coating_thickness, ownRemoval)
    : 5 * ownRemoval);

  var svgNamespace = 'http://www.w3.org/2000/svg';
  function add(parent, kind, attributes, text) {
    var e = document.createElementNS(svgNamespace, kind);
    Object.keys(attributes).forEach(function (k) { e.setAttribute(k, attributes[k]); });
    if (text) { e.textContent = text; }
    byId(parent).appendChild(e);
    return e;
  }
  function drawScales() {
    for (var d = decadeLow; d <= decadeHigh; d += 1) {
      var y = pressureY(Math.pow(10, d));
      add('pressure-grid', 'line', { x1: 10, x2: 620, y1: y, y2: y });
      add('pressure-grid', 'text', { x: 396, y: y - 3 }, +Math.pow(10, d).toPrecision(1) + ' MPa');
    }
    say('exaggeration', 'heights × ' + exaggeration + ', pressure: each line ten times the one below');
    var fourth = chartTop / 4;
    for (var i = 0; i <= 4; i += 1) {
      var at = 210 - 180 * i / 4;
      add('chart-grid', 'line', { x1: 60, x2: 400, y1: at, y2: at });
      add('chart-grid', 'text', { x: 54, y: at + 5, 'text-anchor': 'end' },
        String(+(fourth * i).toPrecision(3)));
    }
    axes.thickness.label.forEach(function (label, i) {
      add('chart-grid', 'text', { x: chartX(i), y: 232, 'text-anchor': 'middle' }, label);
    });
    show('coat-on-sheet', meta.coating !== '');
    if (meta.coating) {
      var bare = chartY(meta.coating_thickness);
      add('chart-grid', 'line', { x1: 60, x2: 400, y1: bare, y2: bare, 'class': 'bare' });
      add('chart-grid', 'text', { x: 398, y: bare - 4, 'text-anchor': 'end' }, 'above: bare');
    }
    if (meta.burr) {
      var unit = 90 / meta.burr_height;
      set('burr-before', 'x', 510 - Math.min(100, Math.max(8, unit * meta.burr_root)));
      set('burr-before', 'width', Math.min(100, Math.max(8, unit * meta.burr_root)));
      set('burr-before', 'y', faceY - 90);
      set('burr-before', 'height', 90);
      say('burr-scale', 'burr ' + meta.burr_height.toPrecision(3) + ' mm high before');
    } else {
      show('close-up', false);
      show('burr-words', false);
    }
  }
  function chartX(i) { return 80 + 300 * i / (count('thickness') - 1); }
  function chartY(removal) { return 210 - 180 * Math.min(1.04, removal / chartTop); }

  function drawDrum(step) {
    var depth = step.hidden ? 0 : step.depth || 0;
    var a = step.hidden ? 0 : step.half_width || 0;
    var round = [];
    var cover = [];
    var rise = function (x) { return meta.radius - Math.sqrt(meta.radius * meta.radius - x * x); };
    for (var i = 0; i <= 80; i += 1) {
      var x = span * (i / 40 - 1);
      var free = rise(x) - depth;
      var out = Math.abs(x) - a;
      var pressed = out <= 0 ? 0
        : Math.max(0, free - (rise(a) - depth) * Math.exp(-4 * out / meta.cover_thickness));
      var at = (middle + perMm * x).toFixed(1) + ',';
      round.push(at + (faceY - perMm * exaggeration * free).toFixed(1));
      cover.push(at + Math.max(0, faceY - perMm * exaggeration * pressed).toFixed(1));
    }
    set('drum-round', 'points', round.join(' '));
    set('drum-cover', 'points', cover.join(' ') + ' ' + (middle + perMm * span) + ',0 ' +
      (middle - perMm * span) + ',0');
    set('drum-belt', 'points', cover.join(' '));
    set('strip', 'x1', middle - perMm * a);
    set('strip', 'x2', middle + perMm * a);
    show('strip', a > 0);
  }
  function drawPressure(step) {
    show('pressure-curve', !step.hidden);
    show('burr-bar', !step.hidden && step.burr_pressure > 0);
    if (step.hidden) { return; }
    // The stored shape of the nearest interference; width and height are this step's own.
    var first = axes.depth.level[0] + axes.thickness.level[0];
    var spacing = axes.thickness.level[1] - axes.thickness.level[0];
    var nearest = place.by_load ? Math.round((step.depth - first) / spacing)
      : place.depth + place.thickness;
    nearest = Math.min(depths - 1, Math.max(0, nearest));
    var from = (((place.cover * count('speed') + place.speed) * count('tension') + place.tension) *
      depths + nearest) * shapePoints;
    var points = [];
    for (var i = -shapePoints; i < shapePoints; i += 1) {
      var k = i < 0 ? -i - 1 : i;
      var x = step.half_width * (i + 0.5) / shapePoints;
      points.push((middle + perMm * x).toFixed(1) + ',' +
        pressureY(step.face_pressure * shapes[from + k] / 255).toFixed(1));
    }
    var left = middle - perMm * step.half_width;
    var right = middle + perMm * step.half_width;
    set('pressure-curve', 'points', left.toFixed(1) + ',' + plotBottom + ' ' + points.join(' ') +
      ' ' + right.toFixed(1) + ',' + plotBottom);
    if (step.burr_pressure > 0) {
      var y = pressureY(step.burr_pressure);
      set('burr-bar', 'y', y);
      set('burr-bar', 'height', plotBottom - y);
    }
  }
  function drawBurr(step) {
    if (!meta.burr) { return; }
    var unit = 90 / meta.burr_height;
    show('burr-after', !step.hidden);
    var left = step.hidden ? 0 : step.burr_left || 0;
    var drop = step.hidden ? 0 : (step.edge_drop || 0) / 1000;
    var up = Math.max(0, left) * unit;
    set('burr-after', 'y', faceY - up);
    set('burr-after', 'height', up);
    ['x', 'width'].forEach(function (n) {
      set('burr-after', n, byId('burr-before').getAttribute(n));
    });
    var down = Math.min(38, unit * Math.max(0, drop));
    set('rim', 'points', '440,' + faceY + ' 485,' + faceY + ' 510,' + (faceY + down) +
      ' 510,190 440,190');
  }
  function drawCoating(step) {
    if (!meta.coating) { return; }
    var left = step.hidden ? 0 : (step.coating_left || 0) / meta.coating_thickness;
    show('coating-gone', !step.hidden);
    set('coating-left', 'width', 380 * left);
    say('coating-words', step.hidden ? 'no number' : step.coating_left > 0
      ? shown(step, 'coating_left') + ' of ' + meta.coating_thickness.toFixed(1) + ' µm left'
      : 'bare: all ' + meta.coating_thickness.toFixed(1) + ' µm are gone');
  }
  function drawChart() {
    var points = [];
    var here = null;
    for (var i = 0; i < count('thickness'); i += 1) {
      var at = copyOf(place);
      at.thickness = i;
      var step = stepAt(at);
      var visible = !step.hidden && step.removal !== undefined;
      if (visible) { points.push(chartX(i) + ',' + chartY(step.removal).toFixed(1)); }
      if (i === place.thickness) { here = visible ? step : null; }
    }
    set('chart-line', 'points', points.join(' '));
    show('chart-marker', here !== null);
    if (here === null) { return; }
    set('chart-marker', 'cx', chartX(place.thickness));
    set('chart-marker', 'cy', chartY(here.removal));
    say('chart-words', here.removal > chartTop ? 'off the scale: ' + shown(here, 'removal') : '');
  }

  var speakLater = null;
  function speak(text) {
    if (speakLater) { clearTimeout(speakLater); }
    speakLater = setTimeout(function () { say('spoken', text); }, 350);
  }
  function warningsOf(step) {
    return meta.warnings.filter(function (w) { return (step.flags & w.flag) !== 0; })
      .map(function (w) { return w.text; });
  }
  function update() {
    Object.keys(axes).forEach(function (name) {
      var slider = byId('slide-' + name);
      if (+slider.value !== place[name]) { slider.value = place[name]; }
      var label = axes[name].label[place[name]];
      say('label-' + name, label);
      slider.setAttribute('aria-valuetext', label);
    });
    byId('row-depth').hidden = place.by_load;
    byId('row-load').hidden = !place.by_load;
    byId('set-by-depth').checked = !place.by_load;
    byId('set-by-load').checked = place.by_load;
    byId('slide-tension').disabled = place.by_load;
    var step = stepAt(place);
    meta.columns.forEach(function (column) { say('value-' + column.key, shown(step, column.key)); });
    if (!step.hidden && meta.coating && !(step.coating_left > 0)) { say('value-coating_left', 'bare'); }
    if (meta.burr) {
      say('value-ratio', step.hidden || !(step.burr_pressure > 0) ? 'no number'
        : (step.burr_pressure / step.face_pressure).toPrecision(3) + ' times');
      say('value-outcome', step.hidden ? 'no number' : step.outcome);
    }
    var warnings = warningsOf(step);
    var box = byId('warning');
    box.hidden = warnings.length === 0;
    say('warning', warnings.join(' '));
    byId('lab').classList.toggle('no-number', step.hidden);
    drawDrum(step);
    drawPressure(step);
    drawBurr(step);
    drawCoating(step);
    drawChart();
    speak(warnings.length && step.hidden ? warnings.join(' ')
      : 'Line load ' + shown(step, 'line_load') + ', face loses ' + shown(step, 'removal') +
        (meta.coating ? ', coating left ' + byId('value-coating_left').textContent : '') +
        (meta.burr ? ', burr ' + step.outcome : '') + '. ' + warnings.join(' '));
  }
  function go(to) {
    Object.keys(to).forEach(function (name) { place[name] = to[name]; });
    if (place.by_load) { place.tension = axes.tension.own; }
    update();
  }

  Object.keys(axes).forEach(function (name) {
    byId('slide-' + name).addEventListener('input', function (event) {
      place[name] = +event.target.value;
      update();
    });
  });
  byId('set-by-depth').addEventListener('change', function () { go({ by_load: false }); });
  byId('set-by-load').addEventListener('change', function () { go({ by_load: true }); });
  byId('back-to-case').addEventListener('click', function () {
    var own = { by_load: meta.by_load };
    Object.keys(axes).forEach(function (name) { own[name] = axes[name].own; });
    go(own);
  });
  byId('large').addEventListener('click', function (event) {
    var on = document.documentElement.classList.toggle('large');
    event.target.setAttribute('aria-pressed', String(on));
  });

  // Guess first: the answer opens with the guess beside it.
  Array.prototype.forEach.call(document.querySelectorAll('.question'), function (question) {
    var answer = question.querySelector('details');
    Array.prototype.forEach.call(question.querySelectorAll('input[type=radio]'), function (input) {
      input.addEventListener('change', function () {
        var right = question.getAttribute('data-right');
        question.querySelector('.guess').textContent = 'Your guess: ' +
          input.parentNode.textContent.trim() + '. ' + (right === '' ? ''
          : input.value === right ? 'That is what the table says.' : 'The table says otherwise.');
        answer.open = true;
      });
    });
    Array.prototype.forEach.call(question.querySelectorAll('button'), function (button) {
      button.addEventListener('click', function () {
        go(JSON.parse(button.getAttribute('data-place')));
        byId('lab').scrollIntoView();
      });
    });
  });

  drawScales();
  Array.prototype.forEach.call(document.querySelectorAll('.with-script'), function (e) {
    e.hidden = false;
  });
  update();

  // For whoever measures: #measure moves the sliders 300 times and writes how long that took.
  if (location.hash === '#measure') {
    var start = performance.now();
    var names = Object.keys(axes);
    for (var n = 0; n < 300; n += 1) {
      var name = names[n % names.length];
      place[name] = (place[name] + 1) % count(name);
      place.by_load = n % 60 >= 30;
      if (place.by_load) { place.tension = axes.tension.own; }
      update();
      byId('lab').getBoundingClientRect();
    }
    say('measured', '300 updates took ' + (performance.now() - start).toFixed(1) + ' ms');
  }
}());
