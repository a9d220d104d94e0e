"use strict";
// What the page shows was worked out by the program that made it. This script
// picks which of it is on show, and computes no frame of the game.
(() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  const space = "http://www.w3.org/2000/svg";
  const wide = matchMedia("(min-width: 46rem)");
  const calm = matchMedia("(prefers-reduced-motion: reduce)");

  const element = (name, attributes, text) => {
    const e = document.createElementNS(space, name);
    for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
    if (text !== undefined) e.textContent = text;
    return e;
  };

  // part makes one part of a picture: see parts.go.
  const part = (text) => {
    const f = text.split(" ");
    const c = f[0];
    const kind = `${c.slice(1, 3)} k${c[3]}`;
    switch (c[0]) {
      case "r":
        return element("rect", { class: kind, x: f[1], y: f[2], width: f[3], height: f[4], "stroke-width": f[5] });
      case "p":
        return element("path", { class: kind, "stroke-width": f[1], d: f.slice(2).join(" ") });
      case "q":
        return element("path", { class: kind, "stroke-width": f[1], "stroke-dasharray": `${f[2]} ${f[3]}`, d: f.slice(4).join(" ") });
    }
    return element("text", {
      class: `s${c[1]} ${c[2]} ${c[3]}`, "font-size": f[1], textLength: f[2], lengthAdjust: "spacingAndGlyphs", x: f[3], y: f[4],
    }, f.slice(5).join(" "));
  };

  // placed reads a list of places: see parts.go.
  const placed = (list) => {
    const out = [];
    let at = 0;
    for (const run of list.split(" ")) {
      const [skip, more] = run.split(",");
      at += parseInt(skip, 36);
      for (let n = more ? parseInt(more, 36) : 0; n >= 0; n--) out.push(at++);
    }
    return out;
  };

  const draw = (svg, picture, size) => {
    const all = document.createDocumentFragment();
    for (const g of placed(picture)) {
      for (const i of placed(data.groups[g])) all.append(part(data.parts[i]));
    }
    svg.setAttribute("viewBox", `${size.x} ${size.y} ${size.w} ${size.h}`);
    svg.replaceChildren(all);
  };

  const stamp = (box, judgement, word) => {
    box.className = `${box.classList[0]} j${judgement.role}`;
    const mark = element("svg", { class: "mark", viewBox: "-2 -2 24 24", "aria-hidden": "true", focusable: "false" });
    mark.append(element("path", { d: judgement.mark }));
    const name = document.createElement("span");
    name.className = "word";
    name.textContent = word;
    box.replaceChildren(mark, name);
  };

  const lessons = [];

  // A picture is drawn when its setup comes near the screen: a page may have a
  // hundred.
  const near = new IntersectionObserver((entries) => {
    for (const e of entries) if (e.isIntersecting) appear(lessons[Number(e.target.dataset.lesson)]);
  }, { rootMargin: "100% 0px" });
  const appear = (lesson) => {
    if (lesson.drawn) return;
    lesson.drawn = true;
    near.unobserve(lesson.section);
    lesson.show();
    lesson.level();
  };

  const begin = (section) => {
    const id = Number(section.dataset.lesson);
    const l = data.lessons[id];
    const by = (name) => document.getElementById(name + id);
    const one = (selector) => section.querySelector(selector);
    const slider = by("delay");
    const reply = by("reply");
    const strip = by("strip");
    const side = by("side");
    const play = one(".play");
    const state = { at: l.own, asked: false, tries: [], hints: 0, frame: null, timer: 0 };

    const exchange = () => (Number(reply.value) < 0 ? l.steps[state.at].decides : Number(reply.value));

    // line is the one through a frame while the exchange plays.
    const line = (size) => {
      const x = size.left + (state.frame - l.from) * size.unit;
      const g = element("g", { class: "now" });
      g.append(
        element("path", { class: "-- ki", "stroke-width": "1.5", d: `M${x} ${size.top}V${size.end}` }),
        element("rect", { class: "si k-", x: Math.min(Math.max(x - 13, 0), size.w - 26), y: size.top, width: "26", height: "14" }),
        element("text", { class: "sp b m", "font-size": "11", x: Math.min(Math.max(x, 13), size.w - 13), y: size.top + 11 }, String(state.frame)),
      );
      return g;
    };

    // level keeps the verdict as high as its longest text, so that what is under
    // a finger doesn't move away.
    const long = l.steps.map((s) => s.because.length + s.title.length);
    const longest = long.map((n, i) => i).sort((a, b) => long[b] - long[a]).slice(0, 4);
    const level = () => {
      const box = by("verdict");
      if (state.asked || box.offsetParent === null) return;
      box.style.minHeight = "";
      let high = 0;
      for (const i of longest) {
        say(l.steps[i]);
        high = Math.max(high, box.offsetHeight);
      }
      box.style.minHeight = `${high}px`;
      say(l.steps[state.at]);
    };
    const say = (step) => {
      stamp(one(".stamp"), data.marks[step.mark], step.word);
      one(".at").textContent = `${step.title}, delay ${step.delay}.`;
      one(".why").textContent = step.because;
    };

    const show = () => {
      const step = l.steps[state.at];
      const e = exchange();
      const each = step.each[e];
      const n = wide.matches ? 1 : 0;
      slider.value = String(state.at);
      slider.setAttribute("aria-valuetext", state.asked ? `delay ${step.delay}` : `delay ${step.delay}, ${step.word}`);
      by("at").textContent = String(step.delay);
      draw(strip, state.asked ? each.covered[n] : each.strip[n], l.strips[n]);
      if (state.frame !== null) strip.append(line(l.strips[n]));
      by("shows").textContent = `Against ${l.exchanges[e].name}` + (state.asked ? "" : `: ${data.texts[each.outcome]}`);
      if (side) {
        side.toggleAttribute("hidden", state.asked);
        if (!state.asked) draw(side, each.side[n], l.sides[n]);
      }
      one(".less").disabled = state.at === 0;
      one(".more").disabled = state.at === l.steps.length - 1;
      by("lesson").hidden = state.asked;
      by("all").hidden = state.asked;
      if (state.asked) {
        by("answer").textContent = "";
        by("note").textContent = "";
        by("say").textContent = "";
        by("found").replaceChildren();
        return;
      }
      say(step);
      by("answer").textContent = [l.answer, l.givesUp].filter(Boolean).join(" ");
      by("note").textContent = l.note ? `Note: ${l.note}` : "";
      by("say").textContent = data.texts[each.say];
      by("found").replaceChildren(...(each.found || []).map((t) => {
        const item = document.createElement("li");
        item.textContent = data.texts[t];
        return item;
      }));
      if (side) by("where").textContent = data.texts[each.where || 0];
    };

    // stop ends the playing; the line stays where it is until something else is shown.
    const stop = (clear) => {
      cancelAnimationFrame(state.timer);
      state.timer = 0;
      if (clear) state.frame = null;
      play.textContent = calm.matches ? "Next frame" : "Play at 1/10 speed";
    };
    const move = (to) => {
      stop(true);
      state.at = Math.min(Math.max(to, 0), l.steps.length - 1);
      show();
    };
    const last = l.from + l.frames - 1;
    const run = () => {
      if (state.timer) {
        stop(false);
        return;
      }
      if (calm.matches) { // a frame at a time, by hand
        state.frame = state.frame === null || state.frame >= last ? Math.max(l.from, 0) : state.frame + 1;
        show();
        return;
      }
      const from = state.frame === null || state.frame >= last ? Math.max(l.from, 0) : state.frame;
      let start = null;
      const tick = (time) => {
        if (start === null) start = time;
        const f = Math.min(from + Math.floor((time - start) / l.tenth), last);
        if (f !== state.frame) {
          state.frame = f;
          show();
        }
        if (f >= last) {
          stop(false);
          return;
        }
        state.timer = requestAnimationFrame(tick);
      };
      state.timer = requestAnimationFrame(tick);
      play.textContent = "Pause";
    };

    slider.addEventListener("input", () => move(Number(slider.value)));
    reply.addEventListener("change", () => { stop(true); show(); });
    one(".less").addEventListener("click", () => move(state.at - 1));
    one(".more").addEventListener("click", () => move(state.at + 1));
    play.addEventListener("click", run);
    calm.addEventListener("change", () => stop(false));
    wide.addEventListener("change", () => { if (lesson.drawn) show(); });

    // A hand drags the picture by whole steps.
    let hold = null;
    strip.classList.add("grip");
    strip.addEventListener("pointerdown", (ev) => {
      if (ev.button !== 0) return;
      hold = { x: ev.clientX, at: state.at };
      strip.setPointerCapture(ev.pointerId);
    });
    strip.addEventListener("pointermove", (ev) => {
      if (!hold) return;
      const size = l.strips[wide.matches ? 1 : 0];
      const unit = size.unit * strip.getBoundingClientRect().width / size.w;
      const to = hold.at + Math.round((ev.clientX - hold.x) / unit);
      if (to !== state.at) move(to);
    });
    for (const end of ["pointerup", "pointercancel"]) strip.addEventListener(end, () => { hold = null; });

    for (const box of section.querySelectorAll(".controls")) box.hidden = false;
    const lesson = { section, state, l, id, move, show, level, slider };
    lessons.push(lesson);
    if (data.exercise) ask(lesson, by, one, reply);
    stop(true);
    near.observe(section);
  };

  // ask makes an exercise of a lesson.
  const ask = (lesson, by, one, reply) => {
    const { l, state, show, level } = lesson;
    const said = one(".said");
    const hints = one(".hints");
    const button = (name) => one("." + name);
    const next = button("next");
    const head = by("name").textContent;
    by("try").hidden = false;

    const start = () => {
      Object.assign(state, { asked: true, tries: [], hints: 0 });
      const wrong = l.steps.map((s, i) => i).filter((i) => !l.steps[i].guess.right);
      const from = wrong.length > 0 ? wrong : l.steps.map((s, i) => i);
      state.at = from[Math.floor(Math.random() * from.length)];
      reply.value = String(l.first);
      said.textContent = "Move the slider to a delay that you think is safe. Then press Check.";
      hints.replaceChildren();
      for (const name of ["check", "none", "hint"]) button(name).hidden = false;
      button("hint").disabled = l.hints.length === 0;
      for (const name of ["give", "again"]) button(name).hidden = true;
      if (next) next.hidden = true;
      by("asked").hidden = false;
      by("name").textContent = head;
    };
    const end = (words) => {
      state.asked = false;
      said.textContent = words;
      for (const name of ["check", "none", "hint", "give"]) button(name).hidden = true;
      button("again").hidden = false;
      if (next) next.hidden = false;
      by("asked").hidden = true;
      by("name").textContent = l.name;
      reply.value = String(l.steps[state.at].decides);
      show();
      level();
      (next || button("again")).focus();
    };
    const tell = (guess) => {
      state.tries.push(guess);
      if (guess.right) {
        score(lesson, state.tries.length === 1 && state.hints === 0 ? "right at once" : "right");
        end(`Right. ${guess.words}`);
        return;
      }
      said.textContent = `Not right. ${guess.short} Try again, ask for a hint, or see the answer.`;
      button("give").hidden = false;
    };

    button("check").addEventListener("click", () => tell(l.steps[state.at].guess));
    lesson.slider.addEventListener("keydown", (ev) => {
      if (ev.key !== "Enter" || !state.asked) return;
      ev.preventDefault(); // or the button that gets the keys takes the key too
      tell(l.steps[state.at].guess);
    });
    button("none").addEventListener("click", () => tell(l.none));
    button("hint").addEventListener("click", () => {
      const item = document.createElement("li");
      item.textContent = l.hints[state.hints++];
      hints.append(item);
      button("hint").disabled = state.hints >= l.hints.length;
    });
    button("give").addEventListener("click", () => {
      score(lesson, "answer shown");
      end(`The answer: ${state.tries[state.tries.length - 1].words}`);
    });
    button("again").addEventListener("click", () => {
      start();
      show();
      lesson.slider.focus();
    });
    start();
  };

  // score notes how an exercise ended; the first end of each counts.
  const ended = new Map();
  const score = (lesson, how) => {
    if (ended.has(lesson.id)) return;
    ended.set(lesson.id, how);
    const done = document.getElementById("done" + lesson.id);
    if (done) done.textContent = how;
    const line = document.getElementById("score");
    if (!line) return;
    const ways = [...ended.values()];
    const right = ways.filter((w) => w !== "answer shown").length;
    const once = ways.filter((w) => w === "right at once").length;
    line.textContent = `${ended.size} of ${data.lessons.length} done: ${right} right, ${once} of them at the first try and without a hint.`;
  };

  document.querySelectorAll("section.setup").forEach(begin);

  // A page that gets wider or narrower wraps its texts anew.
  let width = innerWidth;
  addEventListener("resize", () => {
    if (innerWidth === width) return;
    width = innerWidth;
    for (const lesson of lessons) if (lesson.drawn) lesson.level();
  });

  // The arrows move the setup that is on screen, wherever the keys are not
  // needed for something else.
  document.addEventListener("keydown", (ev) => {
    const by = { ArrowLeft: -1, ArrowRight: 1 }[ev.key];
    if (!by || ev.altKey || ev.ctrlKey || ev.metaKey || ev.target.closest("input, select, button, a, summary")) return;
    const middle = innerHeight / 2;
    const shown = lessons.find(({ section }) => section.getBoundingClientRect().bottom > middle) || lessons[lessons.length - 1];
    if (!shown) return;
    shown.move(shown.state.at + by);
    ev.preventDefault();
  });

  // On paper all is drawn, and the tables are open.
  let opened = [];
  addEventListener("beforeprint", () => {
    lessons.forEach(appear);
    opened = [...document.querySelectorAll("details:not([open])")];
    for (const d of opened) d.open = true;
  });
  addEventListener("afterprint", () => {
    for (const d of opened) d.open = false;
  });
})();
