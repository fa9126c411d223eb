// The packaged GLEW looks for an X display and answers 4 (no GLX display) when the context comes
// from EGL, although every function was loaded. VTK then refuses to draw. This stands before
// GLEW's own function for the whole program and lets that one answer pass.

#include <dlfcn.h>

extern "C" unsigned glewInit();  // NOLINT(readability-identifier-naming): GLEW's own name

extern "C" unsigned glewInit() {
  constexpr unsigned no_glx_display = 4;
  using Init = unsigned (*)();
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): dlsym gives void*
  const auto next = reinterpret_cast<Init>(dlsym(RTLD_NEXT, "glewInit"));
  const unsigned answer = next != nullptr ? next() : 1U;
  return answer == no_glx_display ? 0U : answer;
}
