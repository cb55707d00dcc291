// The keys of the stage, and the pictures made ahead. Nothing is worked out here: a picture has its number,
// and the page shows the next one and tells the kernel which it shows.
(function () {
  history.replaceState(null, "", location.pathname); // the token stays in the cookie, and out of sight
  const ready = new Map();
  const find = (name) => document.querySelector(".stage ." + name);
  let run = -1, shown = null, playing = null, resting = null, told = 0;

  function place() {
    const said = find("stage-place i");
    return said && { run: +said.dataset.run, at: +said.dataset.at, of: +said.dataset.of, beat: +said.dataset.beat,
      ahead: +said.dataset.ahead };
  }

  function tell(words) {
    const input = find("stage-said input");
    if (!input) return;
    input.value = ++told + " " + words;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    input.dispatchEvent(new Event("change", { bubbles: true }));
  }

  function lay(made, at = "") {
    const picture = find("stage-picture img");
    if (!picture || !made) return false;
    picture.own = picture.own || { src: picture.src, alt: picture.alt };
    if (picture.src !== made.src) picture.src = made.src;
    picture.alt = made.alt;
    picture.dataset.at = at;
    return true;
  }

  function handle(at, of) {
    const slider = find("stage-played .noUi-target");
    if (!slider || !slider.noUiSlider) return;
    const { min, max } = slider.noUiSlider.options.range;
    slider.noUiSlider.set(min + (at * (max - min)) / (of - 1)); // moves the handle, and tells nobody
  }

  function show(at) {
    const there = place();
    if (!there || at < 0 || at >= there.of) return false;
    shown = at;
    handle(at, there.of);
    clearTimeout(resting);
    resting = setTimeout(settle, 250);
    if (!lay(ready.get(at), at)) settle();
    return true;
  }

  // Tell the kernel where it stands, if it hasn't been told: before anything else is moved, or a while after a key.
  function settle() {
    clearTimeout(resting);
    if (resting && shown !== null && place()) tell("go " + place().run + " " + shown);
    resting = null;
  }

  function step(by) {
    const there = place();
    return there && show((shown === null ? there.at : shown) + by);
  }

  function stop() {
    clearInterval(playing);
    playing = null;
    button();
  }

  function button() {
    const play = find("stage-play");
    if (play) play.textContent = playing ? "❚❚" : "▶";
  }

  function play() {
    const there = place();
    if (!there) return;
    if (playing) return stop();
    if ((shown === null ? there.at : shown) >= there.of - 1) show(0);
    let waited = 0;
    playing = setInterval(() => {
      const now = place();
      if (!now) return stop();
      const next = (shown === null ? now.at : shown) + 1;
      if (next >= now.of) return stop();
      // What isn't made yet is waited for, since the kernel makes the next one first; then it is asked for.
      if (ready.has(next) || (shown === null && (!now.ahead || (waited += now.beat) > 3000))) {
        waited = 0;
        show(next);
      }
    }, there.beat);
    button();
  }

  function size() {
    const sharp = window.devicePixelRatio || 1, { offsetWidth: wide, offsetHeight: high } = find("stage-picture");
    tell("size " + Math.round(wide * sharp) + " " + Math.round(high * sharp));
  }

  let resized = null, sized = null;
  window.addEventListener("resize", () => { clearTimeout(resized); resized = setTimeout(() => find("stage-picture") && size(), 200); });

  // A slider of ipywidgets has no name of its own, and says of a list only which place in it is set.
  function speak() {
    for (const handle of document.querySelectorAll(".stage [role=slider]")) {
      const words = (name) => handle.closest(".widget-inline-hbox").querySelector(name).textContent;
      handle.setAttribute("aria-label", words(".widget-label"));
      handle.setAttribute("aria-valuetext", words(".widget-readout"));
    }
  }

  new MutationObserver((changes) => {
    speak();
    for (const change of changes) {
      for (const added of change.addedNodes) {
        if (added.nodeName === "I" && added.dataset.at && added.firstElementChild) {
          if (+added.dataset.run > run) { ready.clear(); run = +added.dataset.run; }
          const made = added.querySelector("img");
          if (+added.dataset.run === run) ready.set(+added.dataset.at, { src: made.src, alt: made.alt });
        }
      }
    }
    const on = find("stage-picture");
    if (on && on !== sized && find("stage-said input")) { sized = on; size(); } // each panel leaves it its own room
    const there = place();
    if (!there) { shown = null; ready.clear(); run = -1; if (playing) stop(); return; }
    if (there.run !== run && ready.size) {
      ready.clear();
      run = there.run;
      if (shown !== null) { handle(there.at, there.of); lay((find("stage-picture img") || {}).own); } // what the kernel shows
      shown = null;
    }
    // The kernel's picture may be of a step that is over: the one that she sees stays.
    const picture = find("stage-picture img");
    if (picture) picture.decoding = "sync";
    if (shown !== null && there.at === shown) shown = null;
    if (shown !== null && picture && picture.dataset.at !== String(shown)) lay(ready.get(shown), shown);
  }).observe(document.body, { childList: true, subtree: true });

  document.addEventListener("pointerdown", settle, true);
  document.addEventListener("click", (event) => {
    if (event.target.closest && event.target.closest(".stage-play")) play();
  });

  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || !find("stage-place")) return;
    const on = document.activeElement, typed = on && on.matches("input, select, textarea, [contenteditable=true]");
    const other = on && on.closest(".noUi-handle") && !on.closest(".stage-played");
    const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (other || typed) settle();
    if (event.key === "Escape") { if (playing) stop(); find("stage-leave").click(); }
    else if (event.key === " " && !typed && !(on && on.matches("button:not(.stage-play)"))) play();
    else if (by && !typed && !other) { if (playing) stop(); step(by); }
    else return;
    event.preventDefault();
    event.stopPropagation();
  }, true);
})();
