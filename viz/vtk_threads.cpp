#include "viz/vtk_threads.hpp"

// Alone in its file: this header of VTK 9.1 is not valid C++20, so the file is compiled as C++17.
#include <vtkSMPTools.h>

namespace drumlin::viz {

void on_one_thread(const std::function<void()>& task) {
  vtkSMPTools::LocalScope(vtkSMPTools::Config{1, "Sequential", false}, [&task] { task(); });
}

}  // namespace drumlin::viz
