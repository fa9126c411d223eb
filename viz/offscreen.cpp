#include "viz/offscreen.hpp"

#include <array>
#include <cstdlib>
#include <stdexcept>
#include <string_view>

// Without this the EGL headers bring X11 and its macros.
#define EGL_NO_X11  // NOLINT(readability-identifier-naming)
#include <EGL/egl.h>
#include <EGL/eglext.h>
#include <dlfcn.h>
#include <vtkContext2D.h>
#include <vtkContextActor.h>
#include <vtkContextItem.h>
#include <vtkContextScene.h>
#include <vtkGenericOpenGLRenderWindow.h>
#include <vtkImageData.h>
#include <vtkNew.h>
#include <vtkObjectFactory.h>
#include <vtkPNGWriter.h>
#include <vtkPointData.h>
#include <vtkRenderer.h>
#include <vtkTextRenderer.h>
#include <vtkUnsignedCharArray.h>

#include "viz/vtk_canvas.hpp"

namespace drumlin::viz {
namespace {

/// Context item that hands its painter to a function.
class Painting : public vtkContextItem {
 public:
  vtkTypeMacro(Painting, vtkContextItem)  // ends with its own braces

      static Painting* New();

  bool Paint(vtkContext2D* painter) override {  // NOLINT(readability-identifier-naming)
    VtkCanvas canvas(*painter, Offscreen::width, Offscreen::height);
    if (paint != nullptr) (*paint)(canvas);
    return true;
  }

  const std::function<void(Canvas&)>* paint = nullptr;
};
vtkStandardNewMacro(Painting)

    /// The EGL display and context that the window draws with.
    class EglContext {
 public:
  EglContext() = default;
  ~EglContext() {
    if (display_ == EGL_NO_DISPLAY) return;
    eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    if (context_ != EGL_NO_CONTEXT) eglDestroyContext(display_, context_);
    if (surface_ != EGL_NO_SURFACE) eglDestroySurface(display_, surface_);
    eglTerminate(display_);
  }
  EglContext(const EglContext&) = delete;
  EglContext& operator=(const EglContext&) = delete;
  EglContext(EglContext&&) = delete;
  EglContext& operator=(EglContext&&) = delete;

  /// Makes a context current; empty on success, else what is missing.
  [[nodiscard]] std::string open();

 private:
  [[nodiscard]] bool make_context();

  EGLDisplay display_ = EGL_NO_DISPLAY;
  EGLSurface surface_ = EGL_NO_SURFACE;
  EGLContext context_ = EGL_NO_CONTEXT;
};

std::string EglContext::open() {
  const char* extensions = eglQueryString(EGL_NO_DISPLAY, EGL_EXTENSIONS);
  if (extensions == nullptr ||
      std::string_view(extensions).find("EGL_MESA_platform_surfaceless") == std::string_view::npos)
    return "this machine's EGL has no surfaceless display";
  display_ = eglGetPlatformDisplay(EGL_PLATFORM_SURFACELESS_MESA, nullptr, nullptr);
  if (display_ == EGL_NO_DISPLAY || eglInitialize(display_, nullptr, nullptr) == EGL_FALSE)
    return "no EGL display could be opened (are the Mesa drivers installed?)";
  if (eglBindAPI(EGL_OPENGL_API) == EGL_FALSE || !make_context())
    return "EGL gives no OpenGL 3.2 context here";
  return {};
}

bool EglContext::make_context() {
  constexpr std::array<EGLint, 11> wanted{EGL_SURFACE_TYPE,
                                          EGL_PBUFFER_BIT,
                                          EGL_RENDERABLE_TYPE,
                                          EGL_OPENGL_BIT,
                                          EGL_RED_SIZE,
                                          8,
                                          EGL_GREEN_SIZE,
                                          8,
                                          EGL_BLUE_SIZE,
                                          8,
                                          EGL_NONE};
  EGLConfig config = nullptr;
  EGLint found = 0;
  if (eglChooseConfig(display_, wanted.data(), &config, 1, &found) == EGL_FALSE || found < 1)
    return false;
  constexpr std::array<EGLint, 5> size{EGL_WIDTH, 16, EGL_HEIGHT, 16, EGL_NONE};
  surface_ = eglCreatePbufferSurface(display_, config, size.data());
  constexpr std::array<EGLint, 7> version{EGL_CONTEXT_MAJOR_VERSION,
                                          3,
                                          EGL_CONTEXT_MINOR_VERSION,
                                          2,
                                          EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                          EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                          EGL_NONE};
  context_ = eglCreateContext(display_, config, EGL_NO_CONTEXT, version.data());
  return surface_ != EGL_NO_SURFACE && context_ != EGL_NO_CONTEXT &&
         eglMakeCurrent(display_, surface_, surface_, context_) == EGL_TRUE;
}

/// Whether the program's own glewInit (glew_shim.cpp) is in place, asked for before the drawing
/// library would complain.
bool extensions_load() {
  using Init = unsigned (*)();
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-reinterpret-cast): dlsym gives void*
  const auto init = reinterpret_cast<Init>(dlsym(RTLD_DEFAULT, "glewInit"));
  return init != nullptr && init() == 0;
}

bool forbidden() {
  const char* value = std::getenv("DRUMLIN_NO_RENDERING");  // NOLINT(concurrency-mt-unsafe)
  return value != nullptr && *value != '\0' && std::string_view(value) != "0";
}

}  // namespace

/// In this order, since members go in the reverse one: the window needs its context to the end.
struct Offscreen::Parts {
  EglContext context;
  vtkNew<vtkGenericOpenGLRenderWindow> window;
  vtkNew<vtkRenderer> renderer;
  vtkNew<vtkContextActor> actor;
  vtkNew<Painting> painting;

  void set_up() const;
};

void Offscreen::Parts::set_up() const {
  constexpr int samples = 4;  // per pixel: smooth edges at little cost
  window->SetReadyForRendering(true);
  window->SetIsCurrent(true);
  window->SetOwnContext(0);
  window->SetMultiSamples(samples);
  window->SetFrameBlitModeToNoBlit();
  window->SetSize(width, height);
  renderer->SetBackground(1.0, 1.0, 1.0);
  window->AddRenderer(renderer);
  renderer->AddActor(actor);
  actor->GetScene()->SetRenderer(renderer);
  actor->GetScene()->AddItem(painting);
  // A title may hold a "$": no mathematical notation.
  if (vtkTextRenderer* text = vtkTextRenderer::GetInstance(); text != nullptr)
    text->SetDefaultBackend(vtkTextRenderer::FreeType);
}

Offscreen::Offscreen(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}

Offscreen::~Offscreen() {
  parts_->window->Finalize();
}

void Offscreen::draw(const std::filesystem::path& png, const std::function<void(Canvas&)>& paint) {
  constexpr int compression = 4;
  parts_->painting->paint = &paint;
  parts_->window->Render();
  parts_->painting->paint = nullptr;
  vtkNew<vtkImageData> image;
  image->SetDimensions(width, height, 1);
  vtkNew<vtkUnsignedCharArray> pixels;
  pixels->SetNumberOfComponents(3);
  parts_->window->GetPixelData(0, 0, width - 1, height - 1, 0, pixels, 0);
  image->GetPointData()->SetScalars(pixels);
  vtkNew<vtkPNGWriter> writer;
  writer->SetFileName(png.c_str());
  writer->SetCompressionLevel(compression);
  writer->SetInputData(image);
  writer->Write();
  if (writer->GetErrorCode() != 0 || !std::filesystem::exists(png))
    throw std::runtime_error(png.filename().string() + " could not be written");
}

OffscreenOrReason open_offscreen() {
  if (forbidden()) return {nullptr, "DRUMLIN_NO_RENDERING forbids drawing"};
  // The software rasteriser's threads spend more time waiting for each other than drawing sheets
  // of this size: 8 pictures took 2.2 s without them and 4 s with two on a busy two-core machine.
  setenv("LP_NUM_THREADS", "0", 0);  // NOLINT(concurrency-mt-unsafe): before any of them starts
  auto parts = std::make_unique<Offscreen::Parts>();
  if (std::string missing = parts->context.open(); !missing.empty())
    return {nullptr, std::move(missing)};
  if (!extensions_load())
    return {nullptr, "the OpenGL functions cannot be loaded without an X display"};
  parts->set_up();
  return {std::unique_ptr<Offscreen>(new Offscreen(std::move(parts))), {}};
}

}  // namespace drumlin::viz
