(() => {
  'use strict';
  const walked = document.getElementById('walked'), told = document.getElementById('told');
  if (!walked) return;
  walked.hidden = false;
  walked.addEventListener('click', async () => {
    walked.disabled = true;
    try {
      const r = await fetch(location.pathname, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: '{"walked":true}' });
      if (r.ok) { location.reload(); return; }
      told.textContent = await r.text();
    } catch {
      told.textContent = 'The desk does not answer. Try again when it does.';
    }
    walked.disabled = false;
  });
})();
