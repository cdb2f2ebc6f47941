(() => {
  'use strict';
  const walked = document.getElementById('walked'), told = document.getElementById('told');
  if (!walked) return;
  const words = JSON.parse(document.getElementById('words').textContent);
  walked.hidden = false;
  walked.addEventListener('click', async () => {
    walked.disabled = true;
    try {
      const r = await fetch(location.pathname, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: '{"walked":true}' });
      if (r.ok) { location.reload(); return; }
      told.textContent = await r.text();
    } catch {
      told.textContent = words['phone try again'];
    }
    walked.disabled = false;
  });
})();
