// Runs before the page is drawn, so that a chosen theme does not flash. The key is the one of lib/client/theme.
try {
  const theme = localStorage.getItem("liftbook.theme");
  if (theme === "paper" || theme === "stage") document.documentElement.dataset.theme = theme;
} catch {
  // A browser that keeps nothing follows the system.
}
