#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>

#include "viz/canvas.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {

/// A window without a screen: draws into memory through EGL, needs no X server and no graphics
/// card. One window serves any number of pictures.
class Offscreen {
 public:
  /// Draws one sheet and writes it as PNG. @throws std::runtime_error if the file cannot be
  /// written.
  void draw(const std::filesystem::path& png, const std::function<void(Canvas&)>& paint);

  ~Offscreen();
  Offscreen(const Offscreen&) = delete;
  Offscreen& operator=(const Offscreen&) = delete;
  Offscreen(Offscreen&&) = delete;
  Offscreen& operator=(Offscreen&&) = delete;

  static constexpr int width = sheet_width;    ///< of a sheet [pixel]
  static constexpr int height = sheet_height;  ///< of a sheet [pixel]

 private:
  struct Parts;
  explicit Offscreen(std::unique_ptr<Parts> parts);
  friend struct OffscreenOrReason open_offscreen();

  std::unique_ptr<Parts> parts_;
};

struct OffscreenOrReason {
  std::unique_ptr<Offscreen> screen;  ///< null where nothing can be drawn
  std::string reason;                 ///< why not
};

/// Opens an off-screen window, or says why that is not possible here. Everything is checked before
/// the drawing library is called, since that one ends the process where it finds no display. The
/// environment variable DRUMLIN_NO_RENDERING, set to anything but "0", forbids it.
[[nodiscard]] OffscreenOrReason open_offscreen();

}  // namespace drumlin::viz
