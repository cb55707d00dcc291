// Gives each slider of a panel its label for a name, and the words of what is set for a value. They are
// set again whenever the slider sets its own; what is right already is left alone. `this` is a picture
// that could not be loaded, within the panel.
const put = (e, name, text) => { if (text && e.getAttribute(name) !== text) e.setAttribute(name, text); };
const speak = root => root.querySelectorAll('[role=slider]').forEach(handle => {
  const slider = handle.closest('.widget-inline-hbox');
  if (!slider) return;
  put(handle, 'aria-label', slider.querySelector('.widget-label').textContent);
  put(handle, 'aria-valuetext', slider.querySelector('.widget-readout').textContent);
});
const begin = tries => {
  const root = this.closest('.hemcalc-panel');
  if (!root && tries) setTimeout(() => begin(tries - 1), 200);
  if (!root || root.spoken) return;
  root.spoken = true;
  new MutationObserver(() => speak(root)).observe(root, {subtree: true, childList: true,
    characterData: true, attributes: true, attributeFilter: ['aria-valuenow', 'aria-valuetext']});
  speak(root);
};
begin(50);
